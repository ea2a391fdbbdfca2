import { Problem, Unreachable } from './problem';

const SAFE = new Set(['GET', 'HEAD', 'OPTIONS']);
const REPLY_LIMIT_MS = 30_000;
/** A 40 MB photograph over a weak shop network. */
const PHOTO_LIMIT_MS = 300_000;

let whenSignedOut: () => void = () => {};

/** Called at every 401, whichever request met it. */
export function onSignedOut(listener: () => void): void {
  whenSignedOut = listener;
}

export function readCookie(name: string, cookies: string): string | null {
  for (const pair of cookies.split(';')) {
    const [key, ...value] = pair.trim().split('=');
    if (key === name) return decodeURIComponent(value.join('='));
  }
  return null;
}

async function csrfToken(): Promise<string> {
  const known = readCookie('csrftoken', document.cookie);
  if (known) return known;
  // The server hands the token out with any answer of the session address, signed in or not.
  await fetch('/api/session/', { credentials: 'same-origin' });
  return readCookie('csrftoken', document.cookie) ?? '';
}

async function attempt(request: Request): Promise<Response> {
  const isPhoto = request.headers.get('Content-Type')?.startsWith('multipart/') ?? false;
  try {
    if (!SAFE.has(request.method)) request.headers.set('X-CSRFToken', await csrfToken());
    return await fetch(request, { signal: AbortSignal.timeout(isPhoto ? PHOTO_LIMIT_MS : REPLY_LIMIT_MS) });
  } catch (failure) {
    throw new Unreachable(failure);
  }
}

/**
 * The one way to the server: decides credentials, headers and the CSRF token, and turns every refusal into a
 * `Problem` and every silence into `Unreachable`.
 */
export async function send(request: Request): Promise<Response> {
  if (!request.headers.has('Accept')) request.headers.set('Accept', 'application/json, application/problem+json');
  const response = await attempt(request);
  if (response.ok) return response;
  if (response.status === 401) whenSignedOut();
  throw await Problem.from(response);
}

/** A picture's bytes. */
export async function fetchPictureBytes(path: string): Promise<Blob> {
  const request = new Request(path, { credentials: 'same-origin', headers: { Accept: '*/*' } });
  return (await send(request)).blob();
}
