import { untrack } from 'svelte';
import type { BoardRow, Face, ShotRow } from '../api/rows';
import { db } from '../offline/db';
import { faceVersion, pictureOfFace } from '../offline/faces';
import { pictureOf, type PictureSize } from '../offline/pictures';
import { live } from './live.svelte';

export interface ShownPicture {
  readonly url: string | null;
  /** Neither on the device nor to be had now. */
  readonly isMissing: boolean;
}

/** The address of a shot's picture while a component shows it. Call while a component starts. */
export function shownPicture(of: () => ShotRow | null | undefined, size: () => PictureSize): ShownPicture {
  // Rows come anew with every change of the table; the picture only when the row itself changed.
  const shot = $derived(of());
  const version = $derived(shot ? `${shot.id} ${shot.revision} ${shot.state} ${JSON.stringify(shot.points ?? shot.corners)} ${size()}` : '');
  return shown(
    () => version,
    async () => shot ? pictureOf(db, shot, size()) : null,
  );
}

export interface ShownFace extends ShownPicture {
  /** Still finding out what there is. */
  readonly isOpening: boolean;
}

/** The address of what a face looks like, squared: its joined shots, or what this device can make of them meanwhile. */
export function shownFace(
  of: () => Pick<BoardRow, 'id' | 'length_mm' | 'width_mm'> | null | undefined,
  side: () => Face,
): ShownFace {
  const key = $derived.by(() => {
    const board = of();
    return board ? `${board.id} ${side()}` : '';
  });
  const version = live(
    () => key,
    async (wanted) => {
      const board = untrack(of);
      return wanted && board ? faceVersion(db, board, untrack(side)) : '';
    },
  );
  const picture = shown(
    () => version.current ?? '',
    async () => {
      const board = of();
      return board ? pictureOfFace(db, board, side()) : null;
    },
  );
  return {
    get url() {
      return picture.url;
    },
    get isMissing() {
      return picture.isMissing;
    },
    get isOpening() {
      return version.current === undefined || (version.current !== '' && !picture.url && !picture.isMissing);
    },
  };
}

/** Loads anew whenever the version changes; an empty one shows nothing. */
function shown(version: () => string, load: () => Promise<Blob | null>): ShownPicture {
  let url = $state<string | null>(null);
  let isMissing = $state(false);

  $effect(() => {
    const wanted = version();
    let made: string | null = null;
    let isOver = false;
    isMissing = false;
    if (!wanted) {
      url = null;
      return;
    }
    void untrack(load).then((blob) => {
      if (isOver) return;
      made = blob ? URL.createObjectURL(blob) : null;
      url = made;
      isMissing = !blob;
    });
    return () => {
      isOver = true;
      if (made) URL.revokeObjectURL(made);
    };
  });
  return {
    get url() {
      return url;
    },
    get isMissing() {
      return isMissing;
    },
  };
}
