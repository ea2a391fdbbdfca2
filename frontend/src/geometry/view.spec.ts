import { describe, expect, it } from 'vitest';
import { convert } from './convert';
import { boardMm, photoPx, screenPx } from './point';
import { rectangle } from './rectangle';
import { centredOn, fitted, kept, panned, pinched, viewLink, zoomed } from './view';

const STAGE = { width: 390, height: 500 };
const PHOTO = rectangle(photoPx(0, 0), photoPx(3200, 2000));
const BOARD = rectangle(boardMm(0, 0), boardMm(2592, 140));
const LIMITS = { least: 0.01, most: 10 };

describe('view', () => {
  it('fits the whole picture, centred', () => {
    const view = fitted(PHOTO, STAGE, 10);
    const by = viewLink('photo px', view);
    const low = convert(photoPx(0, 0), { from: 'photo px', to: 'screen px', by });
    const high = convert(photoPx(3200, 2000), { from: 'photo px', to: 'screen px', by });
    expect(low.x).toBeCloseTo(10);
    expect(high.x).toBeCloseTo(380);
    expect(low.y + high.y).toBeCloseTo(500);
  });

  it('shows the lower edge of a board below its upper edge, and goes back', () => {
    const by = viewLink('board mm', fitted(BOARD, STAGE, 10, -1));
    const lower = convert(boardMm(0, 0), { from: 'board mm', to: 'screen px', by });
    const upper = convert(boardMm(0, 140), { from: 'board mm', to: 'screen px', by });
    expect(lower.y).toBeGreaterThan(upper.y);
    const there = convert(boardMm(700, 33), { from: 'board mm', to: 'screen px', by });
    const back = convert(there, { from: 'screen px', to: 'board mm', by });
    expect(back.x).toBeCloseTo(700);
    expect(back.y).toBeCloseTo(33);
  });

  it('keeps what is under the finger when zooming, and stops at the limits', () => {
    const view = fitted(PHOTO, STAGE, 0);
    const at = screenPx(100, 260);
    const before = viewLink('photo px', view).back(at);
    const after = viewLink('photo px', zoomed(view, at, 3, LIMITS)).back(at);
    expect(after.x).toBeCloseTo(before.x);
    expect(after.y).toBeCloseTo(before.y);
    expect(zoomed(view, at, 1e9, LIMITS).scale).toBe(10);
  });

  it('keeps what is between two fingers between them', () => {
    const view = fitted(PHOTO, STAGE, 0);
    const seen = viewLink('photo px', view).back(screenPx(150, 250));
    const after = pinched(view, [screenPx(100, 250), screenPx(200, 250)], [screenPx(100, 300), screenPx(300, 300)], LIMITS);
    const now = viewLink('photo px', after).there(seen);
    expect(now.x).toBeCloseTo(200);
    expect(now.y).toBeCloseTo(300);
    expect(after.scale).toBeCloseTo(2 * view.scale);
  });

  it('cannot be panned out of reach', () => {
    const view = centredOn(boardMm(1300, 70), { scale: 1.5, x: 0, y: 0, up: -1 }, STAGE);
    const gone = kept(panned(view, 1e6, -1e6), BOARD, STAGE, 20);
    const by = viewLink('board mm', gone);
    expect(by.there(boardMm(0, 0)).x).toBeCloseTo(20);
    expect(by.there(boardMm(0, 140)).y).toBeCloseTo(20);
  });
});
