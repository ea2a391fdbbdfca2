/** Where the app is: the words after `#/`; going back finds a screen where it was left. */
class Route {
  words = $state.raw<string[]>(read());
  private trail: { hash: string; scrollPx: number }[] = [];
  private hash = currentHash();

  constructor() {
    if (typeof addEventListener !== 'function') return;
    addEventListener('hashchange', () => this.arrive());
    // The page is drawn after the address changes, so the browser's own memory of places would miss.
    history.scrollRestoration = 'manual';
  }

  get place(): string {
    return this.words[0] ?? '';
  }

  /** Back to the screen before, or to `fallback` when the app was opened here. */
  back(fallback: string): void {
    if (this.trail.length > 0) history.back();
    else go(fallback, { replace: true });
  }

  private arrive(): void {
    const hash = currentHash();
    const isBack = this.trail.at(-1)?.hash === hash;
    const there = isBack ? this.trail.pop()!.scrollPx : 0;
    if (!isBack) this.trail.push({ hash: this.hash, scrollPx: scrollY });
    this.hash = hash;
    this.words = read();
    scrollWhenDrawn(there);
  }
}

/** Lists come from the device a moment later; until they are long enough, tries again. */
function scrollWhenDrawn(toPx: number, tries = 20): void {
  requestAnimationFrame(() => {
    scrollTo(0, toPx);
    if (Math.abs(scrollY - toPx) > 1 && tries > 0) scrollWhenDrawn(toPx, tries - 1);
  });
}

function currentHash(): string {
  return typeof location === 'undefined' ? '' : location.hash;
}

function read(): string[] {
  return currentHash()
    .replace(/^#\/?/, '')
    .split('/')
    .filter(Boolean)
    .map((word) => decodeURIComponent(word));
}

export const route = new Route();

export function go(path: string, { replace = false } = {}): void {
  if (replace) location.replace(`#${path}`);
  else location.hash = path;
}
