/**
 * The addresses for programs, over the same use cases as the pages. What changes the record comes as a JSON object, from
 * this origin, and with `Idempotency-Key` is done once however often it is sent.
 */
import { z } from 'zod';
import type { Context } from '../../usecases/context.ts';
import { badInput } from '../../usecases/read-input-rows.ts';
import { answer, json, requireOwnOrigin } from '../server/answer.ts';
import { currentContext } from '../server/current-caller.ts';
import { mailAfterwards } from '../server/mail-afterwards.ts';

/** Answers with what a use case reads. */
export async function readJson(read: (context: Context) => Promise<unknown>): Promise<Response> {
  return await answer(async () => json(await read(await currentContext())));
}

export interface Asking<Body> {
  readonly shape: z.ZodType<Body>;
  readonly work: (context: Context, asked: Body & { readonly key?: string }) => Promise<unknown>;
}

/** Does what a program asks for, and answers with what came of it. */
export async function doJson<Body extends object>(
  request: Request,
  { shape, work }: Asking<Body>,
): Promise<Response> {
  return await answer(async () => {
    requireOwnOrigin(request);
    const context = await currentContext();
    const parsed = shape.safeParse(await readBody(request));
    if (!parsed.success) {
      throw badInput(
        parsed.error.issues.map(({ path, message }) => ({
          message,
          ...(path.length === 0 ? {} : { column: path.join('.') }),
        })),
      );
    }
    const key = request.headers.get('idempotency-key')?.trim();
    if (key !== undefined && !KEY.test(key)) {
      throw badInput([{ column: 'Idempotency-Key', message: 'must have 1 to 200 plain characters' }]);
    }
    const done = await work(context, { ...parsed.data, ...(key === undefined ? {} : { key }) });
    mailAfterwards();
    return json(done);
  });
}

const KEY = /^[\x21-\x7e]{1,200}$/;
const LONGEST_BODY = 8_000_000;

async function readBody(request: Request): Promise<unknown> {
  if (!/^application\/json\b/i.test(request.headers.get('content-type') ?? '')) {
    throw badInput([{ column: 'Content-Type', message: 'must be application/json' }]);
  }
  const text = await request.text();
  if (text.length > LONGEST_BODY) {
    throw badInput([{ message: 'The body is longer than 8,000,000 characters; send it in parts.' }]);
  }
  try {
    return JSON.parse(text);
  } catch {
    throw badInput([{ message: 'The body is not JSON.' }]);
  }
}

/** Rows with the columns of the CSV files, every cell a text. */
export const ROWS = z.array(z.record(z.string(), z.string())).max(5_000);

/** Where a route about one agreement or load learns which. */
export interface OfId {
  readonly params: Promise<{ readonly id: string }>;
}
