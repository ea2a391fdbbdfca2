const LOOK_AGAIN_MS = 3_600_000;

/** A newer app that is loaded and waits: it takes over only when the person says so, never under their work. */
class Update {
  isReady = $state(false);
  private registration: ServiceWorkerRegistration | undefined;

  /** Plain http has no workers; while developing there is none either. */
  async watch(): Promise<void> {
    if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return;
    const registration = await navigator.serviceWorker.register('/sw.js').catch(() => undefined);
    if (!registration) return;
    this.registration = registration;
    this.isReady = Boolean(registration.waiting);
    registration.addEventListener('updatefound', () => this.follow(registration.installing));
    setInterval(() => void registration.update().catch(() => {}), LOOK_AGAIN_MS);
  }

  use(): void {
    const waiting = this.registration?.waiting;
    if (!waiting) {
      location.reload();
      return;
    }
    waiting.addEventListener('statechange', () => {
      if (waiting.state === 'activated') location.reload();
    });
    waiting.postMessage({ type: 'SKIP_WAITING' });
  }

  later(): void {
    this.isReady = false;
  }

  private follow(worker: ServiceWorker | null): void {
    worker?.addEventListener('statechange', () => {
      // The very first worker takes over by itself; only a later one has somebody to wait for.
      if (worker.state === 'installed' && this.registration?.active) this.isReady = true;
    });
  }
}

export const update = new Update();
