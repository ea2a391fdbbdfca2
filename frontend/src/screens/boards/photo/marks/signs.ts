/** The round signs of the kinds of mark, each drawn once; a thick ring says that the mark goes through the board. */
import type { MarkKind } from '../../../../api/rows';
import { HALO } from '../stage/inks';
import { KINDS } from './kinds';

export const SIGN_PX = 22;
const RIM_PX = 2;
const made = new Map<string, HTMLCanvasElement>();

export function signOf(kind: MarkKind, ink: string, through: boolean, density: number): HTMLCanvasElement {
  const key = `${kind} ${ink} ${through} ${density}`;
  const known = made.get(key);
  if (known) return known;
  const sign = document.createElement('canvas');
  const side = SIGN_PX + 2 * RIM_PX;
  sign.width = sign.height = side * density;
  const pen = sign.getContext('2d');
  if (pen) {
    pen.scale(density, density);
    pen.beginPath();
    pen.arc(side / 2, side / 2, SIGN_PX / 2, 0, 2 * Math.PI);
    pen.fillStyle = HALO;
    pen.fill();
    pen.strokeStyle = ink;
    pen.lineWidth = through ? 2.5 : 1;
    pen.stroke();
    const k = (SIGN_PX * 0.66) / 24;
    pen.translate(side / 2 - 12 * k, side / 2 - 12 * k);
    pen.scale(k, k);
    pen.lineWidth = 2.4;
    pen.lineCap = pen.lineJoin = 'round';
    pen.stroke(new Path2D(KINDS[kind].sign));
  }
  made.set(key, sign);
  return sign;
}
