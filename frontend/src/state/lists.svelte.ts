import { answer, api } from '../api/client';
import type { components } from '../api/schema';
import { db } from '../offline/db';

export type SpeciesEntry = components['schemas']['SpeciesRow'];
export type FinishEntry = components['schemas']['FinishRow'];
export type WorkingKind = components['schemas']['WorkingKind'];

/** The shop's lists for pickers, kept on the device. */
class Lists {
  species = $state.raw<SpeciesEntry[]>([]);
  finishes = $state.raw<FinishEntry[]>([]);
  workings = $state.raw<WorkingKind[]>([]);

  async load(): Promise<void> {
    // What the device has comes first: weak signal must not keep a form waiting.
    this.species = (await db.recall<SpeciesEntry[]>('species')) ?? [];
    this.finishes = (await db.recall<FinishEntry[]>('finishes')) ?? [];
    this.workings = (await db.recall<WorkingKind[]>('workings')) ?? [];
    this.species = await this.refreshed('species', this.species, () => answer(api.GET('/api/species/')));
    this.finishes = await this.refreshed('finishes', this.finishes, () => answer(api.GET('/api/finishes/')));
    this.workings = await this.refreshed('workings', this.workings, () => answer(api.GET('/api/craft/')));
  }

  /** The table's own name for what was written; null when it knows no such wood. */
  nameOf(written: string): string | null {
    const plain = written.trim().toLowerCase();
    const found = this.species.find((one) => [one.name, ...one.aliases].some((name) => name.toLowerCase() === plain));
    return found?.name ?? null;
  }

  private async refreshed<T>(key: string, kept: T[], ask: () => Promise<T[]>): Promise<T[]> {
    try {
      const fresh = await ask();
      await db.remember(key, fresh);
      return fresh;
    } catch {
      return kept;
    }
  }
}

export const lists = new Lists();
