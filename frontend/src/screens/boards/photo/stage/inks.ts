/** Inks on photographs: the same in every look of the app, because the wood does not change. Twins of --mark-* in tokens.css. */
export const CORE = '#1d1b19';
export const HALO = '#fffaf0';
export const CRAYON = '#c8371b';
