/**
 * A board with its marks kept as small drawn squares, so that a frame of panning or drawing only copies them. A few squares are
 * drawn anew in each frame; until then the squares of the zoom before stand in for them, stretched.
 */
import { overlap, type Rectangle, rectangle } from '../../../../geometry/rectangle';
import { type BoardMm, screenPx } from '../../../../geometry/point';
import { type Size, type View, viewLink } from '../../../../geometry/view';
import type { Mark } from './history';
import { boundsOf } from './shape';

export const TILE_PX = 128;
/** Signs and leaders reach this far out of a mark. */
export const REACH_PX = 44;
const MOST_TILES = 120;
const FAST_MS = 4;

interface Tile {
  readonly canvas: HTMLCanvasElement;
  readonly column: number;
  readonly row: number;
}

export type DrawTile = (ctx: CanvasRenderingContext2D, view: View, marks: readonly Mark[]) => void;

interface Layer {
  readonly scale: number;
  readonly up: 1 | -1;
  readonly tiles: Map<string, Tile>;
}

export class Tiles {
  private layer: Layer | null = null;
  private before: Layer | null = null;
  private marks: readonly Mark[] = [];
  private atOnce = 2;

  constructor(private readonly board: Rectangle<BoardMm>, private readonly density: number, private readonly draw: DrawTile) {}

  /** Copies what there is; true when squares are still missing and another frame is wanted. */
  show(ctx: CanvasRenderingContext2D, view: View, size: Size, marks: readonly Mark[], steady: boolean): boolean {
    this.follow(view, marks, steady);
    const layer = this.layer!;
    if (this.before) this.copyAll(ctx, this.before, view);
    if (layer.scale !== view.scale) {
      this.copyAll(ctx, layer, view);
      return true;
    }
    const missing: [number, number][] = [];
    for (const [column, row] of this.seen(view, size)) {
      const tile = layer.tiles.get(`${column} ${row}`);
      if (tile) this.copy(ctx, tile, view);
      else missing.push([column, row]);
    }
    const started = performance.now();
    const now = missing.slice(0, this.atOnce);
    for (const [column, row] of now) this.copy(ctx, this.make(layer, column, row), view);
    if (now.length > 0) this.atOnce = (performance.now() - started) / now.length < FAST_MS ? 2 : 1;
    if (missing.length === now.length) this.before = null;
    return missing.length > now.length;
  }

  private follow(view: View, marks: readonly Mark[], steady: boolean): void {
    if (!this.layer || (steady && (this.layer.scale !== view.scale || this.layer.up !== view.up))) {
      if (this.layer && this.layer.tiles.size > 0) this.before = this.layer;
      this.layer = { scale: view.scale, up: view.up, tiles: new Map() };
    }
    if (marks !== this.marks) {
      const was = new Set(this.marks);
      const is = new Set(marks);
      for (const mark of [...this.marks.filter((m) => !is.has(m)), ...marks.filter((m) => !was.has(m))]) this.forget(mark);
      this.marks = marks;
    }
  }

  private forget(mark: Mark): void {
    for (const layer of [this.layer, this.before]) {
      if (!layer) continue;
      for (const [key, tile] of layer.tiles) {
        if (overlap(boundsOf(mark.shape), this.wood(layer, tile.column, tile.row))) layer.tiles.delete(key);
      }
    }
  }

  /** The view in which this square's corner is the canvas's corner. */
  private viewOf(layer: Layer, column: number, row: number): View {
    return { scale: layer.scale, up: layer.up, x: -column * TILE_PX, y: -row * TILE_PX };
  }

  /** The wood of a square and around it, whose marks reach into it. */
  private wood(layer: Layer, column: number, row: number): Rectangle<BoardMm> {
    const { back } = viewLink('board mm', this.viewOf(layer, column, row));
    const far = TILE_PX + REACH_PX;
    return rectangle(back(screenPx(-REACH_PX, -REACH_PX)), back(screenPx(far, far)));
  }

  private *seen(view: View, size: Size): Generator<[number, number]> {
    const { there } = viewLink('board mm', { ...view, x: 0, y: 0 });
    const [a, b] = [there(this.board.low), there(this.board.high)];
    const span = (low: number, high: number, offset: number, room: number): [number, number] => [
      Math.floor(Math.max(Math.min(low, high) - REACH_PX, -offset) / TILE_PX),
      Math.floor(Math.min(Math.max(low, high) + REACH_PX, room - offset) / TILE_PX),
    ];
    const [left, right] = span(a.x, b.x, view.x, size.width);
    const [top, bottom] = span(a.y, b.y, view.y, size.height);
    for (let column = left; column <= right; column += 1) {
      for (let row = top; row <= bottom; row += 1) yield [column, row];
    }
  }

  private make(layer: Layer, column: number, row: number): Tile {
    if (layer.tiles.size >= MOST_TILES) layer.tiles.delete(layer.tiles.keys().next().value!);
    const canvas = document.createElement('canvas');
    canvas.width = canvas.height = TILE_PX * this.density;
    const ctx = canvas.getContext('2d');
    const wood = this.wood(layer, column, row);
    if (ctx) this.draw(ctx, this.viewOf(layer, column, row), this.marks.filter((mark) => overlap(boundsOf(mark.shape), wood)));
    const tile = { canvas, column, row };
    layer.tiles.set(`${column} ${row}`, tile);
    return tile;
  }

  private copy(ctx: CanvasRenderingContext2D, { canvas, column, row }: Tile, view: View): void {
    const whole = (value: number): number => Math.round(value * this.density) / this.density;
    ctx.drawImage(canvas, whole(column * TILE_PX + view.x), whole(row * TILE_PX + view.y), TILE_PX, TILE_PX);
  }

  private copyAll(ctx: CanvasRenderingContext2D, layer: Layer, view: View): void {
    const k = view.scale / layer.scale;
    const side = TILE_PX * k;
    for (const { canvas, column, row } of layer.tiles.values()) {
      const [x, y] = [column * side + view.x, row * side + view.y];
      if (x < 4000 && x > -side && y > -side && y < 4000) ctx.drawImage(canvas, x, y, side + 0.5, side + 0.5);
    }
  }
}
