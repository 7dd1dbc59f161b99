/**
 * The program's settings, read once from the environment.
 */
import { type Environment, readEnvironment } from '../../environment/environment.ts';

let read: Environment | undefined;

/** Throws `WrongEnvironment` with words that say what to set. */
export function settings(): Environment {
  read ??= readEnvironment(process.env, process.cwd());
  return read;
}

/** Whether cookies must travel over TLS only: where browsers are told to come by https. */
export function isSecure(): boolean {
  return settings().address?.startsWith('https:') ?? false;
}

/** Where browsers find the program. */
export function publicAddress({ address, port }: Environment): string {
  return address ?? `http://localhost:${port}`;
}

/** next-auth takes the address that it sends browsers back to from a variable of its own. */
export function tellAuthAddress(environment: Environment): void {
  process.env['NEXTAUTH_URL'] = publicAddress(environment);
}
