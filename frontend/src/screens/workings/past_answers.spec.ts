import 'fake-indexeddb/auto';
import { beforeEach, describe, expect, it } from 'vitest';
import { newId } from '../../offline/ids';
import { useDatabaseOf } from '../../offline/db';
import { lastWood, pastAnswers, rememberAnswer, type WorkingAnswer } from './past_answers';

const answer = (title: string) => ({ title, lines: [], inputs: [] }) as unknown as WorkingAnswer;
const day = (number: number) => new Date(Date.UTC(2027, 0, number));

beforeEach(() => {
  useDatabaseOf(newId());
});

describe('answers of before', () => {
  it('are there again with no signal, the newest first', async () => {
    await rememberAnswer('slot', { distance_mm: 400 }, answer('a'), day(1));
    await rememberAnswer('slot', { distance_mm: 500 }, answer('b'), day(2));
    expect((await pastAnswers('slot')).map((past) => past.answer.title)).toEqual(['b', 'a']);
    expect(await pastAnswers('taper')).toEqual([]);
  });

  it('keep the same numbers once, as answered last', async () => {
    await rememberAnswer('slot', { distance_mm: 400 }, answer('old'), day(1));
    await rememberAnswer('slot', { distance_mm: 500 }, answer('b'), day(2));
    const past = await rememberAnswer('slot', { distance_mm: 400 }, answer('new'), day(3));
    expect(past.map((one) => one.answer.title)).toEqual(['new', 'b']);
    expect(past[0]!.at).toBe(day(3).toISOString());
  });

  it('are a dozen at most', async () => {
    for (let number = 1; number <= 15; number += 1) await rememberAnswer('slot', { distance_mm: number }, answer(`${number}`), day(number));
    const past = await pastAnswers('slot');
    expect(past.length).toBe(12);
    expect(past.at(-1)!.answer.title).toBe('4');
  });

  it('remember the wood on the bench', async () => {
    expect(await lastWood()).toBe('');
    await rememberAnswer('slot', { species: 'white oak' }, answer('a'));
    await rememberAnswer('taper', { length_mm: 500 }, answer('b'));
    expect(await lastWood()).toBe('white oak');
  });
});
