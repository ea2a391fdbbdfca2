/** Dates and times in the words of the person's own device. */

const DAY_MS = 86_400_000;

/** `4:40 pm` or `16:40`, as the device is set. */
export function timeOfDay(moment: Date): string {
  return moment.toLocaleTimeString(undefined, { hour: 'numeric', minute: '2-digit' }).replace(/\s([AP]M)$/, (half) => `\u00a0${half.trim().toLowerCase()}`);
}

/** `4:40 pm`, `tomorrow at 8:00 am`, `on Friday at 8:00 am`, `on 12 March at 8:00 am`. */
export function momentWords(moment: Date, now: Date): string {
  const days = daysBetween(now, moment);
  if (days === 0) return timeOfDay(moment);
  if (days === 1) return `tomorrow at ${timeOfDay(moment)}`;
  if (days === -1) return `yesterday at ${timeOfDay(moment)}`;
  const day =
    days > 1 && days < 7
      ? moment.toLocaleDateString(undefined, { weekday: 'long' })
      : moment.toLocaleDateString(undefined, { day: 'numeric', month: 'long' });
  return `on ${day} at ${timeOfDay(moment)}`;
}

/** The same inside a sentence: `at 4:40 pm`, `tomorrow at 8:00 am`. */
export function whenWords(moment: Date, now: Date): string {
  const words = momentWords(moment, now);
  return daysBetween(now, moment) === 0 ? `at ${words}` : words;
}

/** Whole days from one calendar day to another. */
export function daysBetween(from: Date, to: Date): number {
  const midnight = (date: Date) => Date.UTC(date.getFullYear(), date.getMonth(), date.getDate());
  return Math.round((midnight(to) - midnight(from)) / DAY_MS);
}

/** A stored day (`2027-03-12`) as a date of the device's own calendar. */
export function dayOf(text: string): Date {
  const [year, month, day] = text.split('-').map(Number);
  return new Date(year!, month! - 1, day!);
}

export function dayWords(text: string): string {
  return dayOf(text).toLocaleDateString(undefined, { day: 'numeric', month: 'short', year: 'numeric' });
}

export function today(now = new Date()): string {
  const two = (number: number) => String(number).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** `40 min`, `3 h 20 min`, `2 days 4 h`: how long something takes or lasts. */
export function spanWords(hours: number): string {
  const minutes = Math.round(hours * 60);
  if (minutes < 60) return `${minutes} min`;
  if (minutes < 48 * 60) return joined(Math.floor(minutes / 60), 'h', minutes % 60, 'min');
  const whole = Math.round(hours);
  return joined(Math.floor(whole / 24), 'days', whole % 24, 'h');
}

function joined(first: number, unit: string, second: number, smaller: string): string {
  return second === 0 ? `${first} ${unit}` : `${first} ${unit} ${second} ${smaller}`;
}
