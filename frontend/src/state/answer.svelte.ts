import { untrack } from 'svelte';
import { wordsOf } from '../api/problem';
import { askShop, keptAnswer, type KeptAnswer } from '../offline/answers';
import { db } from '../offline/db';

export interface ShopAnswer<T> {
  readonly kept: KeptAnswer<T> | null;
  readonly isAsking: boolean;
  /** Why the shop cannot say. */
  readonly complaint: string;
}

/**
 * The shop's answer about something: first as the device keeps it, then as the shop says now. Asked anew when `version`
 * changes; an empty path asks nothing. Call while a component starts.
 */
export function shopAnswer<T>(path: () => string, version: () => string): ShopAnswer<T> {
  let kept = $state.raw<KeptAnswer<T> | null>(null);
  let isAsking = $state(false);
  let complaint = $state('');
  $effect(() => {
    const asked = path();
    void version();
    let isOver = false;
    untrack(() => void ask(asked, () => isOver));
    return () => (isOver = true);
  });

  async function ask(asked: string, isOver: () => boolean): Promise<void> {
    complaint = '';
    const before = asked ? ((await keptAnswer<T>(db, asked)) ?? null) : null;
    if (isOver()) return;
    kept = before;
    if (!asked) return;
    isAsking = true;
    try {
      const fresh = await askShop<T>(db, asked);
      if (!isOver() && fresh) kept = fresh;
    } catch (failure) {
      if (!isOver()) complaint = wordsOf(failure);
    }
    if (!isOver()) isAsking = false;
  }
  return {
    get kept() {
      return kept;
    },
    get isAsking() {
      return isAsking;
    },
    get complaint() {
      return complaint;
    },
  };
}
