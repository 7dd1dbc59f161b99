/**
 * Whether somebody serves a data folder's socket, and answers. A process that is stopped, or too busy, still lets
 * others connect; so whoever connects first asks what only a process that is awake answers.
 */
import { connect } from 'node:net';

/** What a PostgreSQL client asks first: whether the connection can be encrypted. */
const ASKS_FOR_ENCRYPTION = Buffer.from([0, 0, 0, 8, 4, 210, 22, 47]);

/** `nobody` where nobody listens; `silent` where nothing comes within the time. */
export function callOwner(path: string, patienceMs: number): Promise<'answers' | 'silent' | 'nobody'> {
  return new Promise((resolve) => {
    const socket = connect({ path });
    const tell = (found: 'answers' | 'silent' | 'nobody') => {
      socket.destroy();
      resolve(found);
    };
    socket.setTimeout(patienceMs, () => tell('silent'));
    socket.once('connect', () => socket.write(ASKS_FOR_ENCRYPTION));
    socket.once('data', () => tell('answers'));
    socket.once('error', ({ code }: NodeJS.ErrnoException) =>
      tell(code === 'ENOENT' || code === 'ECONNREFUSED' ? 'nobody' : 'silent'),
    );
    // It ended while it was called.
    socket.once('close', () => tell('silent'));
  });
}
