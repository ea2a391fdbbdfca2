import type { CutRow, MarkRow, OfferRow, PartRow, ReadingRow, Row, ShotRow } from '../../api/rows';
import type { OutboxEntry } from '../../offline/db';

/** Where a row is edited; null where it can only be sent again or given up. */
export function placeOf(entry: OutboxEntry, row: Row | undefined): string | null {
  const fields = { ...entry.body, ...row };
  switch (entry.kind) {
    case 'board':
      return `#/rack/${entry.row_id}/edit`;
    case 'reading':
      return `#/rack/${(fields as ReadingRow).board}`;
    case 'cut':
      return `#/rack/${(fields as CutRow).board}`;
    case 'mark':
      return `#/rack/${(fields as MarkRow).board}/marks/${(fields as MarkRow).face}`;
    case 'shot':
      return entry.method === 'PATCH' ? `#/rack/${(fields as ShotRow).board}/corners/${entry.row_id}` : null;
    case 'buying_trip':
      return `#/rack/dealer/${entry.row_id}/edit`;
    case 'offer':
      return `#/rack/dealer/${(fields as OfferRow).trip}/board/${entry.row_id}`;
    case 'client':
      return `#/commissions/client/${entry.row_id}`;
    case 'commission':
      return `#/commissions/${entry.row_id}/edit`;
    case 'part':
      return `#/commissions/${(fields as PartRow).commission}/parts/${entry.row_id}`;
    default:
      return null;
  }
}
