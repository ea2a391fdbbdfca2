/** The form of a working, made from what the service says it asks. */
import type { components } from '../../api/schema';
import type { Units } from '../../api/rows';
import { grouped } from '../../grouped';
import type { WorkingKind } from '../../state/lists.svelte';
import { toTyped } from './figures';

export type Field = components['schemas']['WorkingField'];
export type Value = number | string | null;
/** Values by field name, in the service's own units. */
export type Inputs = Record<string, Value>;

/** What a form starts with: values from before where they still fit, else the declared defaults. */
export function startOf(kind: WorkingKind, before: Inputs | undefined, wood = ''): Inputs {
  return Object.fromEntries(
    kind.fields.map((field) => {
      const held = before?.[field.name];
      if (held !== undefined && fits(field, held)) return [field.name, held];
      if (field.kind === 'species') return [field.name, field.default ?? wood];
      return [field.name, field.default];
    }),
  );
}

function fits(field: Field, value: Value): boolean {
  if (value === null) return !field.need;
  if (field.kind === 'species') return typeof value === 'string';
  if (field.kind === 'choice') return field.choices.some((choice) => choice.value === value);
  return typeof value === 'number' && value >= (field.least ?? -Infinity) && value <= (field.most ?? Infinity);
}

/** What is sent: every field by name, words without the spaces round them. */
export function bodyOf(kind: WorkingKind, draft: Inputs): Inputs {
  return Object.fromEntries(
    kind.fields.map(({ name }) => {
      const value = draft[name] ?? null;
      return [name, typeof value === 'string' ? value.trim() : value];
    }),
  );
}

export function sameInputs(one: Inputs, other: Inputs): boolean {
  const names = new Set([...Object.keys(one), ...Object.keys(other)]);
  return [...names].every((name) => isSame(one[name] ?? null, other[name] ?? null));
}

/** Numbers that went through another unit and back are the same. */
function isSame(one: Value, other: Value): boolean {
  if (typeof one === 'number' && typeof other === 'number') return Math.abs(one - other) <= 1e-9 * Math.max(1, Math.abs(one));
  return one === other;
}

/** Least and most of a field as they are typed here. */
export function typedRange(field: Field, units: Units): { min: number; max: number } {
  return {
    min: field.least === null ? -Infinity : toTyped(field.least, field.kind, units),
    max: field.most === null ? Infinity : toTyped(field.most, field.kind, units),
  };
}

/** What to write where a field was left empty; "" where it may be. */
export function needWords(field: Field, units: Units): string {
  if (!field.need) return '';
  const example = typeof field.default === 'number' ? toTyped(field.default, field.kind, units) : field.whole ? 4 : null;
  return example === null ? 'Write a number.' : `Write a number, such as ${example}.`;
}

/** Kinds that hold every word searched for, by family, in the service's order. */
export function byFamily(kinds: WorkingKind[], search: string): [string, WorkingKind[]][] {
  const words = search.toLowerCase().split(/\s+/).filter(Boolean);
  const found = kinds.filter((kind) => {
    const said = [kind.title, kind.purpose, kind.family, kind.formula].join(' ').toLowerCase();
    return words.every((word) => said.includes(word));
  });
  return [...grouped(found, (kind) => kind.family)];
}
