import { expect, it } from 'vitest';
import type { Against, Flaw } from './legality';
import { wordsAgainst } from './words';

const knot: Flaw = { x: 0, y: 0, length: 10, width: 10, kind: 'knot', faces: 'both', blocksAll: true };
it.each<[Against, string]>([
  [{ why: 'on_mark', flaw: knot }, 'Lies on a knot.'],
  [{ why: 'on_mark', flaw: { ...knot, kind: 'stain', blocksAll: false } }, 'Its seen face would show a stain.'],
  [{ why: 'no_kerf', other: 'leg', gap: 2, kerf: 3 }, 'Only 2 mm from Leg 3; the saw takes 3 mm.'],
  [{ why: 'no_kerf', other: 'leg', gap: 0, kerf: 3 }, 'Touches Leg 3; the saw takes 3 mm.'],
  [{ why: 'overlap', other: 'leg' }, 'Lies over Leg 3.'],
  [{ why: 'outside', side: 'far end', by: 40, trim: 25 }, 'Reaches 15 mm over the far end.'],
  [{ why: 'outside', side: 'butt end', by: 20, trim: 25 }, 'Reaches 20 mm into the 25 mm trimmed off the butt end.'],
  [{ why: 'not_sawable', others: ['leg'] }, 'Cannot be sawn apart from Leg 3: boards are crosscut, ripped, then crosscut again.'],
])('says %j', (against, words) => expect(wordsAgainst(against, () => 'Leg 3', (mm) => `${mm} mm`)).toBe(words));
