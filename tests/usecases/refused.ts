/**
 * How a use case ended.
 */
import { Refusal } from '../../src/usecases/refusal.ts';

/** The code that it was refused with, or 'done'. */
export async function refused(work: Promise<unknown>): Promise<string> {
  try {
    await work;
  } catch (error) {
    if (error instanceof Refusal) return error.code;
    throw error;
  }
  return 'done';
}
