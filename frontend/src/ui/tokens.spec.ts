import { expect, it } from 'vitest';
import css from './tokens.css?raw';

function tokensOf(selector: string): Record<string, string> {
  const block = css.slice(css.indexOf(`${selector} {`)).split('}')[0] ?? '';
  return Object.fromEntries([...block.matchAll(/--([\w-]+):\s*(#[0-9a-f]{6})/g)].map(([, name, value]) => [name, value]));
}

const light = tokensOf(':root');
const LOOKS = {
  light,
  dark: { ...light, ...tokensOf(":root[data-look='dark']") },
  contrast: { ...light, ...tokensOf(":root[data-look='contrast']") },
};

/** Contrast ratio, WCAG 2.2, "relative luminance" and "contrast ratio". */
function contrast(a: string, b: string): number {
  const luminance = (colour: string) => {
    const [r, g, blue] = [1, 3, 5].map((at) => {
      const part = parseInt(colour.slice(at, at + 2), 16) / 255;
      return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
    }) as [number, number, number];
    return 0.2126 * r + 0.7152 * g + 0.0722 * blue;
  };
  const [bright, dim] = [luminance(a), luminance(b)].sort((x, y) => y - x) as [number, number];
  return (bright + 0.05) / (dim + 0.05);
}

it('knows the formula: black on white is 21, and the same colour 1', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 9);
  expect(contrast('#777777', '#777777')).toBeCloseTo(1, 9);
});

const TEXT = [
  ['graphite', 'paper'], ['graphite', 'sheet'], ['graphite', 'paper-low'], ['pencil', 'paper'], ['pencil', 'sheet'], ['pencil', 'paper-low'],
  ['on-crayon', 'crayon'], ['crayon', 'paper'], ['paper', 'graphite'], ['mark-core', 'mark-halo'],
];
const EDGES = [['edge', 'paper'], ['edge', 'sheet'], ['crayon', 'paper-low']];
const cases = Object.entries(LOOKS).flatMap(([look, tokens]) => [
  ...TEXT.map((pair) => ({ look, tokens, pair, least: look === 'contrast' ? 7 : 4.5 })),
  ...EDGES.map((pair) => ({ look, tokens, pair, least: 3 })),
]);

it.each(cases)('$look: $pair has at least $least : 1', ({ tokens, pair, least }) => {
  expect(contrast(tokens[pair[0]!]!, tokens[pair[1]!]!)).toBeGreaterThanOrEqual(least);
});
