import { db } from './db';

/** Nothing more fits on this device; what was saved before is still there. */
export class StorageFull extends Error {
  constructor(cause: unknown) {
    super("This device's storage is full, so the last entry was not saved. All earlier ones are safe. Free some space and save it again.", {
      cause,
    });
    this.name = 'StorageFull';
  }
}

let whenFull: (full: boolean) => void = () => {};

export function onStorageFull(listener: (full: boolean) => void): void {
  whenFull = listener;
}

export function isQuotaFailure(failure: unknown): boolean {
  const names = new Set<string>();
  let at: unknown = failure;
  while (at && typeof at === 'object') {
    names.add((at as Error).name);
    at = (at as { inner?: unknown; cause?: unknown }).inner ?? (at as { cause?: unknown }).cause;
  }
  return names.has('QuotaExceededError');
}

/** Runs a write; when the device is full, gives up kept pictures (they can be fetched again) and tries once more. */
export async function storing<T>(write: () => Promise<T>): Promise<T> {
  try {
    const result = await write();
    whenFull(false);
    return result;
  } catch (failure) {
    if (!isQuotaFailure(failure)) throw failure;
  }
  try {
    await db.pictures.clear();
    return await write();
  } catch (failure) {
    if (!isQuotaFailure(failure)) throw failure;
    whenFull(true);
    throw new StorageFull(failure);
  }
}

export interface DeviceReport {
  installable: boolean;
  keepsData: boolean | null;
  usedMb: number | null;
  freeMb: number | null;
}

/** What this device and address allow; on plain http much is missing. */
export async function deviceReport(): Promise<DeviceReport> {
  const storage = navigator.storage as StorageManager | undefined;
  const estimate = await storage?.estimate?.().catch(() => undefined);
  return {
    installable: 'serviceWorker' in navigator,
    keepsData: storage?.persisted ? await storage.persisted().catch(() => false) : null,
    usedMb: estimate?.usage === undefined ? null : estimate.usage / 1e6,
    freeMb: estimate?.quota === undefined ? null : (estimate.quota - (estimate.usage ?? 0)) / 1e6,
  };
}

/** Asks the browser not to throw the data away when space runs short. */
export async function askToKeepData(): Promise<void> {
  await (navigator.storage as StorageManager | undefined)?.persist?.().catch(() => false);
}
