/** A board that was bought stands in the rack at once, also with no signal. */
import type { BuyingTripRow, OfferRow } from '../../api/rows';
import { db } from '../../offline/db';
import { change, create, remove } from '../../offline/writes';

export async function buy(offer: OfferRow, trip: BuyingTripRow): Promise<string> {
  const tag = offer.tag.trim();
  if (!tag) throw new Error('Give the board a tag first; tap it to write one.');
  if (await db.rows('board').where('tag').equals(tag).first()) throw new Error(`A board in the rack carries ${tag}. Give this one another tag.`);
  const { species, length_mm, width_mm, thickness_mm, thickness_quarters, note, price } = offer;
  const sizes = { length_mm, width_mm, thickness_mm, thickness_quarters };
  const cost = price === undefined ? {} : { price };
  const about = { source: trip.dealer, place: '', flitch: '', notes: note, status: 'in_rack' as const };
  const board = await create('board', { tag, species, ...sizes, ...about, ...cost });
  await change('offer', offer.id, { bought: true, board });
  return board;
}

export async function giveBack(offer: OfferRow): Promise<void> {
  await change('offer', offer.id, { bought: false, board: null });
  if (offer.board) await remove('board', offer.board);
}
