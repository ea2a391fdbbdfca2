import { liveQuery } from 'dexie';

/** What a query on the device answers, again after every change it depends on; undefined until the first answer. */
export interface Live<T> {
  readonly current: T | undefined;
}

/** `of` is read by Svelte (so the query runs anew when it changes), `ask` by Dexie. Call while a component starts. */
export function live<K, T>(of: () => K, ask: (given: K) => Promise<T>): Live<T> {
  let current = $state.raw<T>();
  $effect(() => {
    const given = of();
    const subscription = liveQuery(() => ask(given)).subscribe({
      next: (answer) => (current = answer),
      error: (failure: unknown) => console.error('A query on the device failed', failure),
    });
    return () => subscription.unsubscribe();
  });
  return {
    get current() {
      return current;
    },
  };
}
