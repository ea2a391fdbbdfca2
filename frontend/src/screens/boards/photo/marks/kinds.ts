/** Kinds of mark: sign, pattern and what a new one is like. Defaults as in the server's craft; common practice, no source. */
import type { Blocks, MarkKind, MarkShape } from '../../../../api/rows';

export interface KindOfMark {
  readonly shape: MarkShape['type'];
  readonly blocks: Blocks;
  readonly through: boolean;
  /** Line sign on a 24 px square. */
  readonly sign: string;
  /** What fills the mark: lines repeated on a 12 px square; for a line mark, its dashes. */
  readonly pattern: string;
  readonly dashes?: readonly number[];
}

export const KINDS: Record<MarkKind, KindOfMark> = {
  knot: {
    shape: 'ellipse', blocks: 'all', through: true,
    sign: 'M12 4a8 8 0 1 0 8 8c0-4-3-6-6-6s-5 2-5 5 2 4 4 4 3-1.500 3-3-1-2-2-2',
    pattern: '',
  },
  check: {
    shape: 'line', blocks: 'all', through: false,
    sign: 'M3 15l6-4 1 3 6-5 1 3 4-3', pattern: '', dashes: [9, 3],
  },
  split: {
    shape: 'line', blocks: 'all', through: true,
    sign: 'M3 12h8l10-6M11 12l10 6', pattern: '',
  },
  wane: {
    shape: 'outline', blocks: 'all', through: false,
    sign: 'M3 6h9c1 5 4 8 9 9v3H3z', pattern: 'M-3 3l6-6M0 12L12 0M9 15l6-6',
  },
  sapwood: {
    shape: 'outline', blocks: 'show', through: false,
    sign: 'M3 6c6 3 12 3 18 0M3 12c6 3 12 3 18 0M3 18c6 3 12 3 18 0', pattern: 'M0 3h12M0 9h12',
  },
  bark_pocket: {
    shape: 'ellipse', blocks: 'all', through: false,
    sign: 'M3 12c4-7 14-7 18 0-4 7-14 7-18 0zM9 9l6 6M9 15l6-6M12 8v8', pattern: 'M0 0l12 12M0 12L12 0',
  },
  worm_holes: {
    shape: 'ellipse', blocks: 'show', through: false,
    sign: 'M6 7a2 2 0 1 0 .1 0zM17 6a2 2 0 1 0 .1 0zM12 14a2 2 0 1 0 .1 0zM19 16a1 1 0 1 0 .1 0z',
    pattern: 'M3 2a1 1 0 1 0 .1 0zM9 8a1 1 0 1 0 .1 0z',
  },
  pitch: {
    shape: 'ellipse', blocks: 'show', through: false,
    sign: 'M12 3c4 6 6 8 6 11a6 6 0 0 1-12 0c0-3 2-5 6-11z', pattern: 'M3 1v5M9 7v5',
  },
  stain: {
    shape: 'outline', blocks: 'show', through: false,
    sign: 'M7 17a4 4 0 0 1-1-7.800 5 5 0 0 1 9.500-1.500A4.500 4.500 0 0 1 17 17zM8 21h1M13 20h1', pattern: 'M1 3h4M7 9h4',
  },
  pith: {
    shape: 'line', blocks: 'all', through: false,
    sign: 'M2 12h5M17 12h5M12 8a4 4 0 1 0 .1 0zM12 11.500a.5.5 0 1 0 .1 0z', pattern: '', dashes: [12, 4, 1, 4],
  },
  snipe: {
    shape: 'outline', blocks: 'all', through: false,
    sign: 'M3 8h11l1 3h6v6H3zM15 5v9', pattern: 'M3 0v12M9 0v12',
  },
  other: {
    shape: 'ellipse', blocks: 'all', through: false,
    sign: 'M5 5l14 14M19 5L5 19', pattern: 'M6 3v6M3 6h6',
  },
  figure: {
    shape: 'outline', blocks: 'none', through: false,
    sign: 'M12 3l2.500 6 6.500.5-5 4 1.700 6.500L12 16.500 6.300 20 8 13.500l-5-4 6.500-.5z', pattern: 'M0 4l3-3 3 3 3-3 3 3M0 10l3-3 3 3 3-3 3 3',
  },
};

export const KIND_KEYS = Object.keys(KINDS) as MarkKind[];
