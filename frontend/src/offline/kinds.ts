import type { Kind } from '../api/rows';

/** Where each kind lives on the server, and what to call one of it. */
export const KINDS: Record<Kind, { path: string; word: string }> = {
  client: { path: '/api/clients/', word: 'client' },
  commission: { path: '/api/commissions/', word: 'commission' },
  part: { path: '/api/parts/', word: 'part' },
  board: { path: '/api/boards/', word: 'board' },
  reading: { path: '/api/readings/', word: 'moisture reading' },
  shot: { path: '/api/shots/', word: 'photograph' },
  mark: { path: '/api/marks/', word: 'mark' },
  face_picture: { path: '/api/face-pictures/', word: 'picture of a face' },
  cut: { path: '/api/cuts/', word: 'cut' },
  buying_trip: { path: '/api/buying-trips/', word: 'buying trip' },
  offer: { path: '/api/offers/', word: 'board seen' },
  layout: { path: '/api/layouts/', word: 'layout' },
  surface_plan: { path: '/api/surface-plans/', word: 'surface plan' },
  step: { path: '/api/steps/', word: 'step' },
  bench_entry: { path: '/api/bench-entries/', word: 'bench log entry' },
  packet: { path: '/api/packets/', word: 'packet' },
  working: { path: '/api/workings/', word: 'working' },
  outcome: { path: '/api/outcomes/', word: 'note of what came out' },
};

export const KIND_NAMES = Object.keys(KINDS) as Kind[];
