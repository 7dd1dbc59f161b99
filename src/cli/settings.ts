/**
 * The environment's settings, for a command.
 */
import { type Environment, readEnvironment, WrongEnvironment } from '../environment/environment.ts';
import { WrongUse } from './exit-status.ts';

/** Throws `WrongUse` where a setting cannot be used. */
export function readSettings(): Environment {
  try {
    return readEnvironment(process.env, process.cwd());
  } catch (error) {
    throw error instanceof WrongEnvironment ? new WrongUse(error.message) : error;
  }
}
