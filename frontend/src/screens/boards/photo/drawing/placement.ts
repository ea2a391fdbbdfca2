/** Placements on a drawn board, and what of their names there is room for. */

export interface Drawn {
  readonly id: string;
  readonly x_mm: number;
  readonly y_mm: number;
  readonly length_mm: number;
  readonly width_mm: number;
  readonly label: string;
  /** Its show face is up. */
  readonly seen?: boolean;
}

const LETTER_PX = 8.6;
const LINE_PX = 18;
const LEAST_LETTERS = 4;

export interface Label {
  readonly text: string;
  /** Written along the other way, in a piece that is taller than long. */
  readonly upright: boolean;
}

/** The name, shortened at the end if need be; upright where that shows more of it; nothing where no four letters fit. */
export function labelOf(label: string, box: { readonly width: number; readonly height: number }): Label {
  const lettersIn = (room: number, other: number): number => (other < LINE_PX ? 0 : Math.floor((room - 14) / LETTER_PX));
  const along = lettersIn(box.width, box.height);
  const up = lettersIn(box.height, box.width);
  const upright = along < label.length && up > along;
  const room = upright ? up : along;
  if (label.length <= room) return { text: label, upright };
  return { text: room >= LEAST_LETTERS ? `${label.slice(0, room - 1).trimEnd()}…` : '', upright };
}
