import type { BoardRow } from '../../api/rows';

/** A plain board of true proportions to draw marks on by tape, where there is no squared photo. */
export function bareBoard({ length_mm, width_mm }: Pick<BoardRow, 'length_mm' | 'width_mm'>): string {
  const grain = Array.from({ length: 9 }, (_, at) => {
    const y = (width_mm * (at + 1)) / 10;
    const sway = width_mm * 0.03 * (at % 2 === 0 ? 1 : -1);
    return `M0 ${y}C${length_mm * 0.3} ${y + sway} ${length_mm * 0.7} ${y - sway} ${length_mm} ${y}`;
  }).join('');
  const svg =
    `<svg xmlns="http://www.w3.org/2000/svg" width="${length_mm}" height="${width_mm}" viewBox="0 0 ${length_mm} ${width_mm}">` +
    `<rect width="100%" height="100%" fill="#e9dec8"/><path d="${grain}" fill="none" stroke="#bdb199" stroke-width="2"/></svg>`;
  return `data:image/svg+xml,${encodeURIComponent(svg)}`;
}
