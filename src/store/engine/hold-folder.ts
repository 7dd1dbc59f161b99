/**
 * One owner of a data folder at a time. Two databases on one folder lose data without a word, so ownership is a thing
 * that the operating system gives to one process and takes back when that process ends, however it ends.
 */
import { createHash } from 'node:crypto';
import { createServer, type Server } from 'node:net';

export interface Hold {
  readonly release: () => Promise<void>;
}

/**
 * Takes the folder, or returns undefined where another process of this machine has it.
 * `folder` is its real, absolute path.
 */
export async function holdFolder(folder: string): Promise<Hold | undefined> {
  const server = createServer((socket) => socket.destroy());
  const taken = await listening(server, placeFor(folder));
  if (!taken) return undefined;
  // Holding on must not keep a program alive that has nothing else to do.
  server.unref();
  return {
    release: () => new Promise((resolve) => server.close(() => resolve())),
  };
}

/** A name that one process can listen on, and that outlives no process. */
function placeFor(folder: string): { path: string } | { port: number; host: string } {
  const digest = createHash('sha256').update(folder).digest();
  const name = `huskledger-${digest.toString('hex').slice(0, 32)}`;
  switch (process.platform) {
    case 'linux':
      // In Linux's abstract namespace: no file stays behind.
      return { path: `\0${name}` };
    case 'win32':
      return { path: `\\\\.\\pipe\\${name}` };
    default:
      return { port: 49_152 + (digest.readUInt16BE(0) % 16_384), host: '127.0.0.1' };
  }
}

function listening(server: Server, place: ReturnType<typeof placeFor>): Promise<boolean> {
  return new Promise((resolve, reject) => {
    server.once('error', (error: NodeJS.ErrnoException) => {
      if (error.code === 'EADDRINUSE') resolve(false);
      else reject(error);
    });
    server.listen({ ...place, exclusive: true }, () => resolve(true));
  });
}
