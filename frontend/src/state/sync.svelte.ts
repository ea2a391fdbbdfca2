import { liveQuery, type Subscription } from 'dexie';
import { Problem, Unreachable, wordsOf } from '../api/problem';
import { answer, api } from '../api/client';
import { db, type OutboxEntry } from '../offline/db';
import { sendWaiting } from '../offline/outbox';
import { keepPictures } from '../offline/pictures';
import { pull, type FeedPage } from '../offline/pull';
import { onStorageFull } from '../offline/storage';
import { putToServer } from '../offline/transport';
import { session } from './session.svelte';

const CALM_MS = 20_000;
const WATCHED_MS = 1_000;
const LONGEST_BACKOFF_MS = 60_000;

/** Sends what waits, fetches what is new, and says how that stands. */
class Sync {
  phase = $state<'resting' | 'working' | 'unreachable'>('resting');
  entries = $state.raw<OutboxEntry[]>([]);
  /** Rows fetched in the running pull; large only at the first visit. */
  fetched = $state(0);
  /** Whether this device has ever fetched all there is; null until it was looked up. */
  hasBooks = $state<boolean | null>(null);
  problem = $state('');
  storageFull = $state(false);

  readonly waiting = $derived(this.entries.filter((entry) => entry.state === 'waiting').length);
  readonly needsChoice = $derived(this.entries.length - this.waiting);

  private failures = 0;
  private watchers = 0;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private running: Promise<void> | null = null;
  private again = false;
  private subscription: Subscription | undefined;
  private listeners: AbortController | undefined;

  start(): void {
    this.stop();
    onStorageFull((full) => (this.storageFull = full));
    void db.recall<boolean>('has_books').then((has) => (this.hasBooks ||= has ?? false));
    this.subscription = liveQuery(() => db.outbox.orderBy('seq').toArray()).subscribe((entries) => {
      const isMore = entries.filter((entry) => entry.state === 'waiting').length > this.waiting;
      this.entries = entries;
      if (isMore) this.nudge();
    });
    this.listeners = new AbortController();
    const { signal } = this.listeners;
    addEventListener('online', () => this.nudge(), { signal });
    addEventListener('focus', () => this.nudge(), { signal });
    document.addEventListener('visibilitychange', () => document.visibilityState === 'visible' && this.nudge(), { signal });
    this.nudge();
  }

  stop(): void {
    clearTimeout(this.timer);
    this.subscription?.unsubscribe();
    this.listeners?.abort();
    this.entries = [];
    this.hasBooks = null;
  }

  /** The shop's words about the fields of a refused row, for its form. */
  errorsOf(rowId: string | null): Record<string, string> {
    const refused = this.entries.find((entry) => entry.row_id === rowId && entry.state === 'refused');
    return Object.fromEntries(Object.entries(refused?.problem?.errors ?? {}).map(([field, texts]) => [field, texts.join(' ')]));
  }

  /** Something waits on the shop's computer: ask often. Call the answer to stop. */
  watch(): () => void {
    this.watchers += 1;
    this.nudge();
    return () => (this.watchers -= 1);
  }

  /** Now, rather than at the next turn. */
  nudge(): void {
    if (!session.member) return;
    if (this.running) {
      this.again = true;
      return;
    }
    clearTimeout(this.timer);
    this.running = this.turn();
    void this.running.then(() => {
      this.running = null;
      this.plan();
    });
  }

  /** Somebody signs in: nothing is sent meanwhile, or one member's entries would go out in another's name. */
  async whileQuiet(work: () => Promise<void>): Promise<void> {
    while (this.running) await this.running;
    clearTimeout(this.timer);
    this.running = work();
    try {
      await this.running;
    } finally {
      this.running = null;
      this.nudge();
    }
  }

  private async turn(): Promise<void> {
    this.again = false;
    this.phase = 'working';
    try {
      const reached = await onlyOneTab(() => this.exchange());
      this.failures = reached ? 0 : this.failures + 1;
      this.phase = reached ? 'resting' : 'unreachable';
    } catch (failure) {
      this.failures += 1;
      this.phase = failure instanceof Unreachable ? 'unreachable' : 'resting';
      const isTold = failure instanceof Unreachable || (failure instanceof Problem && failure.status === 401);
      this.problem = isTold ? '' : wordsOf(failure);
    }
  }

  private async exchange(): Promise<boolean> {
    const outcome = await sendWaiting(db, putToServer);
    if (outcome === 'signed_out') return true;
    await pull(
      db,
      (since) => answer<FeedPage>(api.GET('/api/changes/', { params: { query: { since, limit: 500 } } })),
      (rows) => (this.fetched = rows),
    );
    this.problem = '';
    if (!this.hasBooks) await db.remember('has_books', true);
    this.hasBooks = true;
    if (session.signedOut) await session.refresh();
    void keepPictures(db);
    return outcome === 'drained';
  }

  private plan(): void {
    if (!session.member) return;
    if (this.again && this.failures === 0) return this.nudge();
    const isHidden = document.visibilityState === 'hidden';
    const calm = this.watchers > 0 ? WATCHED_MS : CALM_MS;
    const backoff = Math.min(LONGEST_BACKOFF_MS, 2000 * 2 ** (this.failures - 1)) * (0.75 + Math.random() / 2);
    if (isHidden && this.waiting === 0) return;
    this.timer = setTimeout(() => this.nudge(), this.failures > 0 ? backoff : calm);
  }
}

/** Two tabs would do no harm (keys see to that), only double work. */
async function onlyOneTab<T>(work: () => Promise<T>): Promise<T> {
  const locks = navigator.locks as LockManager | undefined;
  return locks ? locks.request('flitchbook-exchange', work) : work();
}

export const sync = new Sync();
