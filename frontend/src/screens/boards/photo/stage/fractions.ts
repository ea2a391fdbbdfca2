/** Finds the fractions in spoken measures, so that they can be set as fractions: 29 3/4" becomes 29, 3 over 4, ". */

export interface Run {
  readonly text: string;
  readonly fraction: readonly [top: string, bottom: string] | null;
}

export function runsOf(words: string): Run[] {
  const runs: Run[] = [];
  let at = 0;
  for (const found of words.matchAll(/(?:(?<=\d) )?(\d+)\/(\d+)/g)) {
    if (found.index > at) runs.push({ text: words.slice(at, found.index), fraction: null });
    runs.push({ text: found[0], fraction: [found[1]!, found[2]!] });
    at = found.index + found[0].length;
  }
  if (at < words.length) runs.push({ text: words.slice(at), fraction: null });
  return runs;
}
