/**
 * Files as streams of bytes that are known to be UTF-8 text; what is not is refused with what to do about it.
 */
import { createReadStream } from 'node:fs';
import { readFile } from 'node:fs/promises';
import type { InputProblem } from './input-problem.ts';

/** Thrown where a file cannot be read as text; carries the problem to show. */
export class UnreadableFile extends Error {
  readonly problem: InputProblem;

  constructor(problem: InputProblem) {
    super(problem.message);
    this.problem = problem;
  }
}

const CHUNK_BYTES = 1 << 16;
const LINE_FEED = 10;

/** Chunks of a file, with a byte-order mark left in place. Throws `UnreadableFile`. */
export async function* readTextBytes(path: string, file: string): AsyncGenerator<Buffer> {
  const decoder = new TextDecoder('utf-8', { fatal: true });
  let line = 1;
  const stream = createReadStream(path, { highWaterMark: CHUNK_BYTES });
  try {
    for await (const chunk of stream as AsyncIterable<Buffer>) {
      if (chunk.includes(0)) {
        throw new UnreadableFile({
          file,
          line: line + countLines(chunk, chunk.indexOf(0)),
          message: 'is not a text file (it holds zero bytes); save it as CSV, UTF-8',
        });
      }
      decoder.decode(chunk, { stream: true });
      yield chunk;
      line += countLines(chunk, chunk.length);
    }
    decoder.decode();
  } catch (error) {
    throw asUnreadable(error, file, line);
  }
}

/** A whole file as text, without its byte-order mark. Throws `UnreadableFile`. */
export async function readText(path: string, file: string): Promise<string> {
  try {
    const bytes = await readFile(path);
    if (bytes.includes(0)) {
      throw new UnreadableFile({
        file,
        message: 'is not a text file (it holds zero bytes); save it as UTF-8 text',
      });
    }
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch (error) {
    throw asUnreadable(error, file, undefined);
  }
}

/** A whole file, whatever it holds. Throws `UnreadableFile`. */
export async function readWholeFile(path: string, file: string): Promise<Uint8Array> {
  try {
    return await readFile(path);
  } catch (error) {
    throw asUnreadable(error, file, undefined);
  }
}

function countLines(chunk: Buffer, end: number): number {
  let lines = 0;
  for (let at = chunk.indexOf(LINE_FEED); at >= 0 && at < end; at = chunk.indexOf(LINE_FEED, at + 1)) lines++;
  return lines;
}

const SYSTEM_MESSAGES: Readonly<Record<string, string>> = {
  ENOENT: 'is not there',
  EACCES: 'cannot be read: permission is denied',
  EPERM: 'cannot be read: permission is denied',
  EISDIR: 'is a folder, not a file',
};

function asUnreadable(error: unknown, file: string, line: number | undefined): unknown {
  if (error instanceof UnreadableFile) return error;
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  if (code === 'ERR_ENCODING_INVALID_ENCODED_DATA') {
    const message = 'is not UTF-8 text; save it as CSV, UTF-8';
    return new UnreadableFile(
      line === undefined ? { file, message } : { file, message: `${message} (found after line ${line})` },
    );
  }
  if (code in SYSTEM_MESSAGES) return new UnreadableFile({ file, message: SYSTEM_MESSAGES[code] ?? '' });
  return error;
}
