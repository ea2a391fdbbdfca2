export const LOOKS = ['phone', 'light', 'dark', 'contrast'] as const;
export type Look = (typeof LOOKS)[number];

const KEY = 'flitchbook.look';
const BUZZ_KEY = 'flitchbook.buzz';

/** How this device shows the app; kept on the device, not in the shop. */
class Appearance {
  look = $state<Look>(readLook());
  /** A short vibration when a mark is set or a wait ends; off until asked for. */
  buzzes = $state(readItem(BUZZ_KEY) === 'on');
  private systemDark = $state(false);

  constructor() {
    if (typeof matchMedia !== 'function') return;
    const dark = matchMedia('(prefers-color-scheme: dark)');
    this.systemDark = dark.matches;
    dark.addEventListener('change', () => {
      this.systemDark = dark.matches;
      this.apply();
    });
    this.apply();
  }

  choose(look: Look): void {
    this.look = look;
    localStorage.setItem(KEY, look);
    this.apply();
  }

  setBuzzes(on: boolean): void {
    this.buzzes = on;
    localStorage.setItem(BUZZ_KEY, on ? 'on' : 'off');
  }

  buzz(): void {
    if (this.buzzes) navigator.vibrate?.(30);
  }

  private apply(): void {
    const shown = this.look === 'phone' ? (this.systemDark ? 'dark' : 'light') : this.look;
    document.documentElement.dataset.look = shown;
    const paper = getComputedStyle(document.documentElement).getPropertyValue('--paper').trim();
    document.querySelector('meta[name="theme-color"]')?.setAttribute('content', paper || '#f4ecdd');
  }
}

function readItem(key: string): string | null {
  return typeof localStorage === 'undefined' ? null : localStorage.getItem(key);
}

function readLook(): Look {
  const kept = readItem(KEY);
  return LOOKS.find((look) => look === kept) ?? 'phone';
}

export const appearance = new Appearance();
