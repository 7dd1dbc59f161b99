/**
 * Reads what a request says. What does not fit its shape is refused with every fault and its place.
 */
import type { z } from 'zod';
import { badInput } from '../../usecases/read-input-rows.ts';
import type { Problem } from '../../usecases/refusal.ts';
import { isShape, type RawBody } from './operation.ts';

const KEY = /^[\x21-\x7e]{1,200}$/;
const LONGEST_BODY = 8_000_000;
/** As much as a file of the record may hold. */
const LARGEST_FILE = 10_485_760;

/** Refuses `bad-input`. */
export function readShape(shape: z.ZodType, given: unknown): unknown {
  const parsed = shape.safeParse(given);
  if (parsed.success) return parsed.data;
  throw badInput(parsed.error.issues.map(placed));
}

/** A fault in a list of rows is told by the row, counted from 0, and its column. */
function placed({
  path,
  message,
}: {
  readonly path: readonly PropertyKey[];
  readonly message: string;
}): Problem {
  const at = path.findIndex((part) => typeof part === 'number');
  if (at < 0) return path.length === 0 ? { message } : { column: path.join('.'), message };
  const column = path.slice(at + 1).join('.');
  return { row: Number(path[at]), ...(column === '' ? {} : { column }), message };
}

/** A JSON body by its shape, or a file's bytes. Refuses `bad-input`. */
export async function readBody(request: Request, body: z.ZodType | RawBody): Promise<unknown> {
  const type = request.headers.get('content-type') ?? '';
  if (!isShape(body)) return await readFileBody(request, type, body.kinds);
  if (!/^application\/json\b/i.test(type)) {
    throw badInput([{ column: 'Content-Type', message: 'must be application/json' }]);
  }
  const text = await request.text();
  if (text.length > LONGEST_BODY) {
    throw badInput([{ message: 'The body is longer than 8,000,000 characters; send it in parts.' }]);
  }
  return readShape(body, parsedJson(text));
}

function parsedJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw badInput([{ message: 'The body is not JSON.' }]);
  }
}

async function readFileBody(request: Request, type: string, kinds: readonly string[]): Promise<Uint8Array> {
  const known = [...kinds, 'application/octet-stream'];
  if (!known.some((kind) => type.toLowerCase().startsWith(kind))) {
    throw badInput([{ column: 'Content-Type', message: `must be one of ${known.join(', ')}` }]);
  }
  if (Number(request.headers.get('content-length') ?? 0) > LARGEST_FILE) throw tooLarge();
  const bytes = new Uint8Array(await request.arrayBuffer());
  if (bytes.length > LARGEST_FILE) throw tooLarge();
  return bytes;
}

function tooLarge() {
  return badInput([{ message: 'The file is larger than 10 MB. Send a smaller one.' }]);
}

/** The request's key, ready to be spread. Refuses `bad-input`. */
export function readKey(request: Request): { readonly key?: string } {
  const key = request.headers.get('idempotency-key')?.trim();
  if (key === undefined) return {};
  if (!KEY.test(key)) {
    throw badInput([{ column: 'Idempotency-Key', message: 'must have 1 to 200 plain characters' }]);
  }
  return { key };
}
