import { registerSW } from 'virtual:pwa-register';

/** A newer app that is loaded and waits: it takes over only when the person says so. */
class Update {
  isReady = $state(false);
  private take: ((reload?: boolean) => Promise<void>) | undefined;

  watch(): void {
    if (!('serviceWorker' in navigator)) return;
    this.take = registerSW({ onNeedRefresh: () => (this.isReady = true) });
  }

  async use(): Promise<void> {
    await this.take?.(true);
  }

  later(): void {
    this.isReady = false;
  }
}

export const update = new Update();
