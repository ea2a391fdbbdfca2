import type { Row } from './rows';

/** A refusal by the server, in its own words (RFC 9457 problem details). */
export class Problem extends Error {
  readonly status: number;
  readonly title: string;
  readonly detail: string;
  readonly errors: Record<string, string[]>;
  readonly current: Row | null;

  constructor(status: number, body: Record<string, unknown> = {}) {
    const title = typeof body.title === 'string' ? body.title : `The shop's computer answered ${status}.`;
    const detail = typeof body.detail === 'string' ? body.detail : '';
    super(detail || title);
    this.name = 'Problem';
    this.status = status;
    this.title = title;
    this.detail = detail;
    this.errors = readErrors(body.errors);
    this.current = (body.current as Row | undefined) ?? null;
  }

  static async from(response: Response): Promise<Problem> {
    try {
      return new Problem(response.status, (await response.json()) as Record<string, unknown>);
    } catch {
      return new Problem(response.status);
    }
  }
}

/** No answer at all: no signal, the shop's computer is off, or it took too long. */
export class Unreachable extends Error {
  constructor(cause?: unknown) {
    super("The shop's computer cannot be reached from here.", { cause });
    this.name = 'Unreachable';
  }
}

function readErrors(errors: unknown): Record<string, string[]> {
  if (typeof errors !== 'object' || errors === null) return {};
  const read: Record<string, string[]> = {};
  for (const [field, text] of Object.entries(errors)) {
    read[field] = Array.isArray(text) ? text.map(String) : [String(text)];
  }
  return read;
}

/** The sentences to show for any failure. */
export function wordsOf(failure: unknown): string {
  if (failure instanceof Problem) {
    const fields = Object.values(failure.errors).flat();
    return fields.length > 0 ? fields.join(' ') : failure.message;
  }
  if (failure instanceof Error) return failure.message;
  return String(failure);
}
