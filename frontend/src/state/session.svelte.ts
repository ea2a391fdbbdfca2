import { tick } from 'svelte';
import { Problem, Unreachable } from '../api/problem';
import type { Member, Workshop } from '../api/rows';
import { answer, api } from '../api/client';
import { onSignedOut } from '../api/send';
import { db, useDatabaseOf } from '../offline/db';
import { forgetShop } from '../offline/pull';
import type { TapeStyle } from '../measures/print';

interface Who {
  member: Member;
  workshop: Workshop;
}

const KEY = 'flitchbook.member';
const METRIC: TapeStyle = { units: 'metric', denominator: 16 };

/** Who uses this device. Known from the device first, so that the app opens without signal. */
class Session {
  member = $state.raw<Member | null>(null);
  workshop = $state.raw<Workshop | null>(null);
  /** The shop no longer knows this device; what waits stays, and goes out after signing in. */
  signedOut = $state(false);

  readonly tape: TapeStyle = $derived(
    this.workshop ? { units: this.workshop.units, denominator: this.workshop.inch_denominator } : METRIC,
  );
  readonly isOwner = $derived(this.member?.role === 'owner');

  constructor() {
    onSignedOut(() => {
      if (this.member) this.signedOut = true;
    });
  }

  /** Opens what the device knows; false when nobody has signed in here. */
  async open(): Promise<boolean> {
    const member = keptMember();
    if (!member) return false;
    useDatabaseOf(member.id);
    this.workshop = (await db.recall<Workshop>('workshop')) ?? null;
    this.member = member;
    return true;
  }

  /** Asks the shop who this is; without signal the device's knowledge stands. */
  async refresh(): Promise<void> {
    try {
      await this.accept((await answer(api.GET('/api/session/'))) as Who);
    } catch (failure) {
      const isKnown = failure instanceof Unreachable || failure instanceof Problem;
      if (!isKnown) throw failure;
    }
  }

  async signIn(username: string, password: string): Promise<void> {
    await this.accept((await answer(api.POST('/api/session/', { body: { username, password } }))) as Who);
  }

  async enter(token: string): Promise<void> {
    await this.accept((await answer(api.POST('/api/session/link/', { body: { token } }))) as Who);
  }

  async keepWorkshop(workshop: Workshop): Promise<void> {
    this.workshop = workshop;
    await db.remember('workshop', workshop);
  }

  /** Leaves this device; what waits to be sent stays on it for the same member. */
  async signOut(): Promise<void> {
    await api.DELETE('/api/session/');
    const isAllSent = (await db.outbox.count()) === 0;
    localStorage.removeItem(KEY);
    this.member = null;
    this.workshop = null;
    this.signedOut = false;
    // The screens that read it are gone before it is.
    await tick();
    if (isAllSent) await db.delete();
  }

  private async accept(who: Who): Promise<void> {
    const known = this.member;
    if (known?.id !== who.member.id) useDatabaseOf(who.member.id);
    else if (known.role !== who.member.role) await forgetShop(db);
    localStorage.setItem(KEY, JSON.stringify(who.member));
    await this.keepWorkshop(who.workshop);
    this.member = who.member;
    this.signedOut = false;
  }
}

function keptMember(): Member | null {
  try {
    return JSON.parse(localStorage.getItem(KEY) ?? 'null') as Member | null;
  } catch {
    return null;
  }
}

export const session = new Session();
