/** Feeds pointer events of an element to `Fingers`, in pixels from the element's upper left corner. */
import type { Attachment } from 'svelte/attachments';
import { type Point, screenPx, type ScreenPx } from '../../../../geometry/point';
import { type FingerMoves, Fingers } from './fingers';

export interface Touch extends FingerMoves {
  /** The wheel of a mouse: above 1 comes closer. */
  wheel(at: Point<ScreenPx>, factor: number): void;
}

export const touch = (moves: Touch): Attachment<HTMLElement> => (node) => {
  const fingers = new Fingers(moves);
  const off = new AbortController();
  const place = (event: MouseEvent): Point<ScreenPx> => {
    const box = node.getBoundingClientRect();
    return screenPx(event.clientX - box.left, event.clientY - box.top);
  };
  const listen = <K extends 'pointerdown' | 'pointermove' | 'pointerup' | 'pointercancel'>(
    name: K,
    act: (event: PointerEvent) => void,
  ): void => node.addEventListener(name, act, { signal: off.signal });

  listen('pointerdown', (event) => {
    if (event.pointerType === 'mouse' && event.button !== 0) return;
    node.setPointerCapture(event.pointerId);
    fingers.start(event.pointerId, place(event));
  });
  listen('pointermove', (event) => fingers.move(event.pointerId, place(event), event.timeStamp));
  listen('pointerup', (event) => fingers.end(event.pointerId, place(event)));
  listen('pointercancel', (event) => fingers.cancel(event.pointerId));
  // Else the browser takes the end of a drag for a fling and swallows the next tap, on whichever button it lands.
  node.addEventListener('touchstart', (event) => event.preventDefault(), { signal: off.signal, passive: false });
  node.addEventListener(
    'wheel',
    (event) => {
      event.preventDefault();
      moves.wheel(place(event), Math.exp(-event.deltaY / 400));
    },
    { signal: off.signal, passive: false },
  );
  return () => off.abort();
};

const FIRST_MS = 400;
const NEXT_MS = 70;

/** A button that goes on while it is held; a plain click (keyboard, screen reader) counts once. */
export const held = (act: () => void): Attachment<HTMLElement> => (node) => {
  let timer = 0;
  let byPointer = false;
  const off = new AbortController();
  const again = (): void => {
    act();
    timer = window.setTimeout(again, NEXT_MS);
  };
  const stop = (): void => clearTimeout(timer);
  node.addEventListener(
    'pointerdown',
    () => {
      byPointer = true;
      act();
      timer = window.setTimeout(again, FIRST_MS);
    },
    { signal: off.signal },
  );
  for (const name of ['pointerup', 'pointercancel', 'pointerleave'] as const) {
    node.addEventListener(name, stop, { signal: off.signal });
  }
  node.addEventListener(
    'click',
    () => {
      if (!byPointer) act();
      byPointer = false;
    },
    { signal: off.signal },
  );
  return () => {
    stop();
    off.abort();
  };
};
