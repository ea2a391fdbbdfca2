import createClient from 'openapi-fetch';
import type { paths } from './schema';
import { send } from './send';

/** Typed calls for what is not kept as rows; every one goes through `send`. */
export const api = createClient<paths>({
  baseUrl: typeof location === 'undefined' ? '' : location.origin,
  fetch: send,
});

/** The answer itself: refusals were thrown by `send`, so what arrives here is good. */
export async function answer<T>(call: Promise<{ data?: T }>): Promise<T> {
  return (await call).data as T;
}
