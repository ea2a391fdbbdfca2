/** Answers stay on the device, so that the last ones are at hand with no signal. */
import type { components } from '../../api/schema';
import { db } from '../../offline/db';
import { storing } from '../../offline/storage';
import { sameInputs, type Inputs } from './form';

export type WorkingAnswer = components['schemas']['WorkingAnswer'];

export interface PastAnswer {
  at: string;
  inputs: Inputs;
  answer: WorkingAnswer;
}

const MOST = 12;
const keyOf = (kind: string) => `workings/${kind}`;

/** The newest first. */
export async function pastAnswers(kind: string): Promise<PastAnswer[]> {
  return (await db.recall<PastAnswer[]>(keyOf(kind))) ?? [];
}

/** The same inputs are kept once, as answered last. */
export async function rememberAnswer(kind: string, inputs: Inputs, answer: WorkingAnswer, at = new Date()): Promise<PastAnswer[]> {
  const newest: PastAnswer = { at: at.toISOString(), inputs, answer };
  const others = (await pastAnswers(kind)).filter((past) => !sameInputs(past.inputs, inputs));
  const kept = [newest, ...others].slice(0, MOST);
  await storing(() => db.remember(keyOf(kind), kept));
  if (typeof inputs.species === 'string') await db.remember('workings.wood', inputs.species);
  return kept;
}

/** The wood that was worked with last: most likely it is still on the bench. */
export async function lastWood(): Promise<string> {
  return (await db.recall<string>('workings.wood')) ?? '';
}
