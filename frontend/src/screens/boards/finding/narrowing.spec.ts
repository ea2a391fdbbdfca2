import { describe, expect, it } from 'vitest';
import type { BoardRow, MarkRow, ReadingRow } from '../../../api/rows';
import { conditionsOf, EVERYTHING, found, inOrder, narrowed, without, type Narrowing } from './narrowing';
import { byTag, countingKey, rackLine, type RackLine } from './rack_line';

const board = (tag: string, fields: Partial<BoardRow> = {}): BoardRow =>
  ({
    id: tag, tag, species: 'white oak', length_mm: 2400, width_mm: 200, thickness_mm: 27, place: 'Wall', flitch: '', source: '',
    notes: '', status: 'in_rack', created_at: '2027-01-01T08:00:00Z', ...fields,
  }) as BoardRow;
const knotAt = (cx_mm: number, fields: Partial<MarkRow> = {}) =>
  ({ kind: 'knot', face: 'A', through: true, blocks: 'all', shape: { type: 'ellipse', cx_mm, cy_mm: 100, rx_mm: 20, ry_mm: 20 }, ...fields }) as MarkRow;
const reading = (mc_pct: number, read_on = '2027-02-01') => ({ mc_pct, read_on, created_at: `${read_on}T08:00:00Z` }) as ReadingRow;

const LINES: RackLine[] = [
  rackLine(board('W-2', { length_mm: 3000, flitch: 'F1' }), [], [knotAt(1500)], [reading(12, '2027-01-05'), reading(8)]),
  rackLine(board('W-10', { thickness_mm: 52, place: 'Floor, left' }), [], [], []),
  rackLine(board('M-1', { species: 'hard maple', width_mm: 150, created_at: '2027-03-01T08:00:00Z' }), [], [], [reading(7)]),
  rackLine(board('W-1', { status: 'used' }), [], [], []),
].sort(byTag);
const tags = (lines: readonly RackLine[]) => lines.map((line) => line.board.tag);
const by = (fields: Partial<Narrowing>): Narrowing => ({ ...EVERYTHING, ...fields });
const narrowedTo = (fields: Partial<Narrowing>, endTrimMm = 25) => tags(narrowed(LINES, by(fields), endTrimMm));

describe('the rack narrowed down', () => {
  it('counts tags as people do', () => {
    expect(countingKey('W-2') < countingKey('w-10')).toBe(true);
    expect(narrowedTo({})).toEqual(['M-1', 'W-2', 'W-10']);
  });
  it.each<[Partial<Narrowing>, string[]]>([
    [{ status: 'used' }, ['W-1']],
    [{ species: 'white oak' }, ['W-2', 'W-10']],
    [{ flitch: 'F1' }, ['W-2']],
    [{ place: 'Floor, left' }, ['W-10']],
    [{ least_thickness_mm: 52.2 }, ['W-10']],
    [{ most_thickness_mm: 30 }, ['M-1', 'W-2']],
    [{ most_mc_pct: 8 }, ['M-1', 'W-2']],
    [{ least_mc_pct: 7.5 }, ['W-2']],
    [{ clear_width_mm: 180 }, ['W-2', 'W-10']],
    // The knot takes 26 mm on each side of 1500, the trims 25 at each end.
    [{ clear_length_mm: 1449, clear_width_mm: 150 }, ['M-1', 'W-2', 'W-10']],
    [{ clear_length_mm: 1450, clear_width_mm: 150 }, ['M-1', 'W-10']],
    [{ clear_length_mm: 2900, clear_width_mm: 50 }, ['W-2']],
    [{ clear_length_mm: 2351 }, ['W-2']],
    [{ species: 'hard maple', most_mc_pct: 6 }, []],
  ])('by %j: %j', (fields, expected) => {
    expect(narrowedTo(fields)).toEqual(expected);
  });
  it('finds boards by any words of their label', () => {
    expect(tags(found(LINES, ' oak left '))).toEqual(['W-10']);
    expect(tags(found(LINES, 'oak right'))).toEqual([]);
    expect(found(LINES, ' ')).toBe(LINES);
  });
  it('sorts, with what ties by tag and what is unknown last', () => {
    const here = narrowed(LINES, EVERYTHING, 0);
    expect(tags(inOrder(here, 'longest'))).toEqual(['W-2', 'M-1', 'W-10']);
    expect(tags(inOrder(here, 'widest'))).toEqual(['W-2', 'W-10', 'M-1']);
    expect(tags(inOrder(here, 'thickest'))).toEqual(['W-10', 'M-1', 'W-2']);
    expect(tags(inOrder(here, 'driest'))).toEqual(['M-1', 'W-2', 'W-10']);
    expect(tags(inOrder(here, 'newest'))).toEqual(['M-1', 'W-2', 'W-10']);
    expect(tags(inOrder(here, 'species'))).toEqual(['M-1', 'W-2', 'W-10']);
  });
  it('says each condition and drops each alone', () => {
    const all = by({ species: 'white oak', clear_length_mm: 1200, clear_width_mm: 150, least_thickness_mm: 25, most_mc_pct: 8, search: 'w' });
    const conditions = conditionsOf(all, { units: 'metric', denominator: 16 });
    expect(conditions.map(({ words }) => words)).toEqual(['white oak', '25 mm or more thick', '1200 mm × 150 mm clear', '8 % or less moist']);
    expect(without(all, conditions[2]!)).toEqual({ ...all, clear_length_mm: null, clear_width_mm: null });
  });
});
