/** What stands against a piece, as one would say it in the shop. */
import type { MarkKind } from '../../../api/rows';
import type { Against } from './legality';

const MARKS: Record<MarkKind, string> = {
  knot: 'a knot', check: 'a check', split: 'a split', wane: 'wane', sapwood: 'sapwood', bark_pocket: 'a bark pocket', worm_holes: 'worm holes',
  pitch: 'pitch', stain: 'a stain', pith: 'the pith', snipe: 'snipe', other: 'a mark', figure: 'prized figure',
};

export function wordsAgainst(against: Against, nameOf: (piece: string) => string, say: (mm: number) => string): string {
  switch (against.why) {
    case 'outside':
      return against.by > against.trim
        ? `Reaches ${say(against.by - against.trim)} over the ${against.side}.`
        : `Reaches ${say(against.by)} into the ${say(against.trim)} trimmed off the ${against.side}.`;
    case 'on_mark':
      return against.flaw.blocksAll ? `Lies on ${MARKS[against.flaw.kind]}.` : `Its seen face would show ${MARKS[against.flaw.kind]}.`;
    case 'overlap':
      return `Lies over ${nameOf(against.other)}.`;
    case 'no_kerf':
      return against.gap === 0
        ? `Touches ${nameOf(against.other)}; the saw takes ${say(against.kerf)}.`
        : `Only ${say(against.gap)} from ${nameOf(against.other)}; the saw takes ${say(against.kerf)}.`;
    case 'not_sawable':
      return against.others.length > 0
        ? `Cannot be sawn apart from ${against.others.map(nameOf).join(', ')}: boards are crosscut, ripped, then crosscut again.`
        : 'Cannot be sawn out as it lies: boards are crosscut, ripped, then crosscut again.';
  }
}
