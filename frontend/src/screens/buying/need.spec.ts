import { describe, expect, it } from 'vitest';
import { learnedWaste } from './learned_waste';
import { amountWords, needsOf, quartersFor, Shares, whyNothing, type Stock } from './need';

const SHOP = { units: 'inch' as const, waste_pct: 25, extra_length_mm: 25, extra_width_mm: 6, extra_thickness_mm: 5, joint_loss_mm: 3 };
const part = (name: string, fields = {}) => ({
  name, species: 'white oak', quantity: 1, length_mm: 975, width_mm: 94, thickness_mm: 20, grain: 'length' as const, strip_count: 1, ...fields,
});
const board = (fields: Partial<Stock> = {}): Stock => ({ id: 'b', species: 'white oak', length_mm: 2000, width_mm: 200, thickness_mm: 25.4, ...fields });

describe('what a commission needs', () => {
  it('is the blanks of all parts with the waste, by wood and thickness', () => {
    const parts = [part('Rail', { quantity: 4 }), part('Stile'), part('Leg', { thickness_mm: 45 }), part('Drawer front', { species: 'hard maple' })];
    expect(needsOf(parts, SHOP)).toEqual([
      { species: 'hard maple', thickness_mm: 25.4, quarters: 4, area_mm2: 1000 * 100 * 1.25, parts: ['Drawer front'] },
      { species: 'white oak', thickness_mm: 25.4, quarters: 4, area_mm2: 5 * 1000 * 100 * 1.25, parts: ['Rail', 'Stile'] },
      { species: 'white oak', thickness_mm: 50.8, quarters: 8, area_mm2: 1000 * 100 * 1.25, parts: ['Leg'] },
    ]);
  });
  it('reckons with the waste that the shop has learned of a wood, where it has', () => {
    const learned = learnedWaste([
      { species: 'white oak', board_mm2: 1000, got_mm2: 700 },
      { species: 'white oak', board_mm2: 200, got_mm2: 100 },
    ]);
    expect(learned).toEqual(new Map([['white oak', { waste_pct: 40, count: 2 }]]));
    const [maple, oak] = needsOf([part('Rail'), part('Front', { species: 'hard maple' })], SHOP, learned);
    expect(maple!.area_mm2).toBe(1000 * 100 * 1.25);
    expect(oak!.area_mm2).toBeCloseTo((1000 * 100) / 0.6);
    expect(oak!.learned).toEqual({ waste_pct: 40, count: 2 });
  });
  it('does not buy without end where nothing came out of a board', () => {
    const [need] = needsOf([part('Rail')], SHOP, learnedWaste([{ species: 'white oak', board_mm2: 1000, got_mm2: 0 }]));
    expect(need!.area_mm2).toBeCloseTo(1000 * 100 * 10);
  });
  it('counts every strip of a panel, and grain that runs across', () => {
    const [need] = needsOf([part('Top', { width_mm: 594, strip_count: 6, grain: 'width', length_mm: 594 })], { ...SHOP, waste_pct: 0 });
    // Along the grain 594 + 25; across (594 + 6) / 6 + 2 x 3.
    expect(need!.area_mm2).toBe(619 * 106 * 6);
  });
  it('counts blanks where one holds several pieces', () => {
    const [need] = needsOf([part('Leg', { quantity: 5, blank_holds: 2, blank_length_mm: 975, blank_width_mm: 144 })], { ...SHOP, waste_pct: 0 });
    expect(need!.area_mm2).toBe(3 * 1000 * 150);
  });
  it('goes by whole millimetres in a metric shop', () => {
    const needs = needsOf([part('Rail'), part('Leg', { thickness_mm: 20.2 })], { ...SHOP, units: 'metric' });
    expect(needs.map((need) => [need.thickness_mm, need.quarters])).toEqual([[25, null], [26, null]]);
  });
  it.each([[20, 4], [25.4, 4], [25.9, 4], [26, 5], [45, 8], [110, 18]])('%d mm rough comes from %d/4', (mm, quarters) => {
    expect(quartersFor(mm)).toBe(quarters);
  });
});

describe('boards shared out', () => {
  const needs = needsOf([part('Rail', { quantity: 4 }), part('Leg', { thickness_mm: 45 })], { ...SHOP, waste_pct: 0 });
  const [thin, thick] = needs as [(typeof needs)[0], (typeof needs)[0]];

  it('go to the thickest need they can serve, then to a thinner one', () => {
    const shares = new Shares(needs);
    const heavy = board({ thickness_mm: 52, length_mm: 1000, width_mm: 150 });
    shares.take(heavy);
    expect([shares.lackingOf(thin), shares.lackingOf(thick)]).toEqual([400_000, 0]);
    expect(shares.wouldAdd(heavy)).toEqual({ need: thin, area_mm2: 150_000 });
    shares.take(heavy);
    expect(shares.lackingOf(thin)).toBe(250_000);
  });
  it('never serve what they are too thin for', () => {
    const shares = new Shares(needs);
    for (let at = 0; at < 5; at += 1) shares.take(board());
    expect([shares.lackingOf(thin), shares.lackingOf(thick)]).toEqual([0, 100_000]);
    expect(shares.wouldAdd(board())).toBeNull();
  });
  it('say why they add nothing', () => {
    expect(whyNothing(needs, board({ species: 'black walnut' }))).toBe('wood');
    expect(whyNothing(needs, board({ thickness_mm: 20 }))).toBe('thin');
    expect(whyNothing(needs, board())).toBe('enough');
  });
});

it('writes amounts as the shop buys them', () => {
  expect(amountWords(144 * 25.4 ** 2 * 7.4, 25.4, 'inch')).toBe('7.4 bf');
  expect(amountWords(1_000_000, 27, 'metric')).toBe('0.027 m³');
});
