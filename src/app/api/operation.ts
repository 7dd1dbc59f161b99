/**
 * One operation of /api/v1, said once: the route that does it and the document that describes it are both made from it.
 */
import { z } from 'zod';
import type { Scope } from '../../domain/parties/scopes.ts';
import type { Context } from '../../usecases/context.ts';
import type { RefusalCode } from '../../usecases/refusal.ts';

/** The names in the braces of a path: "id" in "/loads/{id}". */
export type NamesIn<Path extends string> = Path extends `${string}{${infer Name}}${infer Rest}`
  ? Name | NamesIn<Rest>
  : never;

/** A value that nobody is to change, as use cases return theirs. */
export type Told<Value> = Value extends readonly (infer Item)[]
  ? readonly Told<Item>[]
  : Value extends object
    ? { readonly [Key in keyof Value]: Told<Value[Key]> }
    : Value;

/** What a request says. */
export interface AskedOf<Path extends string, Query, Body> {
  readonly in: Readonly<Record<NamesIn<Path>, string>>;
  readonly query: Query;
  readonly body: Body;
  /** Its `Idempotency-Key`, ready to be spread. */
  readonly once: { readonly key?: string };
}

/** What is said of an operation beside its work. */
export interface Described {
  /** Unique, for the functions of generated clients. */
  readonly id: string;
  readonly method: 'GET' | 'POST';
  /** Under /api/v1. */
  readonly path: string;
  readonly summary: string;
  /** A token with any one of them may ask for it; with none, only a person who is signed in. */
  readonly scopes: readonly Scope[];
  /** What it may be refused for, beside what any request may. */
  readonly refusals: readonly RefusalCode[];
  readonly query?: z.ZodObject;
  readonly body?: z.ZodType | RawBody;
  /** JSON, or the kind of file that comes back. */
  readonly answer: z.ZodType | FileAnswer;
}

/** A body that is a file. */
export interface RawBody {
  readonly kinds: readonly string[];
}

export interface FileAnswer {
  readonly kinds: readonly string[];
}

export interface Operation extends Described {
  readonly work: (context: Context, asked: AskedOf<string, never, never>) => Promise<unknown>;
}

const NO_QUERY = z.strictObject({});
type NoQuery = typeof NO_QUERY;

interface Definition<
  Path extends string,
  Query extends z.ZodObject,
  Body extends z.ZodType | RawBody,
  Answer extends z.ZodType | FileAnswer,
> extends Omit<Described, 'query' | 'body' | 'answer' | 'path'> {
  readonly path: Path;
  readonly query?: Query;
  readonly body?: Body;
  readonly answer: Answer;
  readonly work: (
    context: Context,
    asked: AskedOf<Path, z.infer<Query>, Body extends z.ZodType ? z.infer<Body> : Uint8Array>,
  ) => Promise<Answer extends z.ZodType ? Told<z.input<Answer>> : Response>;
}

/** Takes care that what an operation does fits what it says. */
export function operation<
  const Path extends string,
  Answer extends z.ZodType | FileAnswer,
  Query extends z.ZodObject = NoQuery,
  Body extends z.ZodType | RawBody = z.ZodUndefined,
>(definition: Definition<Path, Query, Body, Answer>): Operation {
  // What the request says is read by these same shapes before the work is done.
  return definition as unknown as Operation;
}

export function isShape(shape: z.ZodType | RawBody | FileAnswer): shape is z.ZodType {
  return shape instanceof z.ZodType;
}
