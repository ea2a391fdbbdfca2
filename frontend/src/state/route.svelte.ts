/** Where the app is: the words after `#/`. */
class Route {
  words = $state.raw<string[]>(read());

  constructor() {
    if (typeof addEventListener === 'function') addEventListener('hashchange', () => (this.words = read()));
  }

  get place(): string {
    return this.words[0] ?? '';
  }
}

function read(): string[] {
  if (typeof location === 'undefined') return [];
  return location.hash
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

/** Back to where the person came from, or to `fallback` when the app was opened here. */
export function back(fallback: string): void {
  if (history.length > 1 && history.state?.flitchbook !== 'first') history.back();
  else go(fallback, { replace: true });
}
