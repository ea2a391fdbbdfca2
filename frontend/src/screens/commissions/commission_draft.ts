import type { ClientRow, CommissionRow } from '../../api/rows';
import { HOME_AIRS, homeAirOf } from '../../words';

/** A commission on its form. `client` is an id, "" for none, "new" for one written beside it. */
export interface CommissionDraft {
  title: string;
  piece: string;
  client: string;
  new_client: Pick<ClientRow, 'name' | 'email' | 'phone' | 'address' | 'notes'>;
  home_place: string;
  home_air: string;
  home_rh_dry_pct: number | null;
  home_rh_damp_pct: number | null;
  home_temp_c: number | null;
  wanted_on: string;
  stage: CommissionRow['stage'];
  notes: string;
  price: number | null;
}

const NOBODY = { name: '', email: '', phone: '', address: '', notes: '' };
const START = HOME_AIRS[0]!;

export function blankCommission(hasClients: boolean): CommissionDraft {
  return {
    title: '',
    piece: '',
    client: hasClients ? '' : 'new',
    new_client: { ...NOBODY },
    home_place: '',
    home_air: START.key,
    home_rh_dry_pct: START.dry_pct,
    home_rh_damp_pct: START.damp_pct,
    home_temp_c: START.temp_c,
    wanted_on: '',
    stage: 'enquiry',
    notes: '',
    price: null,
  };
}

export function draftOf(row: CommissionRow): CommissionDraft {
  return {
    title: row.title,
    piece: row.piece,
    client: row.client ?? '',
    new_client: { ...NOBODY },
    home_place: row.home_place,
    home_air: homeAirOf(row)?.key ?? 'own',
    home_rh_dry_pct: row.home_rh_dry_pct,
    home_rh_damp_pct: row.home_rh_damp_pct,
    home_temp_c: row.home_temp_c,
    wanted_on: row.wanted_on ?? '',
    stage: row.stage,
    notes: row.notes ?? '',
    price: row.price === null || row.price === undefined ? null : Number(row.price),
  };
}

/** Why the home's air cannot be as written; "" when it can. */
export function airRefusal(draft: Pick<CommissionDraft, 'home_rh_dry_pct' | 'home_rh_damp_pct'>): string {
  const { home_rh_dry_pct: dry, home_rh_damp_pct: damp } = draft;
  if (dry === null || damp === null || dry <= damp) return '';
  return `The dry season (${dry} %) cannot be damper than the damp one (${damp} %).`;
}
