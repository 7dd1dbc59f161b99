/**
 * Starting: says which record this is, or stops with words that say what to put right.
 */
import { subscribe } from 'node:diagnostics_channel';
import type { IncomingMessage } from 'node:http';
import { PEER_HEADER } from './client-address.ts';
import { openedRecord } from './record.ts';
import { publicAddress, settings, tellAuthAddress } from './settings.ts';
import { watchTheClock } from './watch-the-clock.ts';

export async function startServer(): Promise<void> {
  try {
    tellAuthAddress(settings());
    const record = await openedRecord();
    console.log(`Huskledger keeps its record in ${record.description}.`);
    console.log(`Open ${publicAddress(settings())} in a browser; Ctrl+C ends it.`);
    closeAtEnd(record.close);
    watchTheClock();
  } catch (error) {
    const isTold =
      error instanceof Error && ['WrongEnvironment', 'EngineUnavailable'].includes(nameOf(error));
    console.error(isTold ? `Huskledger cannot start: ${error.message}` : error);
    process.exit(1);
  }
  notePeers();
}

/** Minifying leaves class names alone on the server; subclasses of Error carry no other name. */
function nameOf(error: Error): string {
  return error.constructor.name;
}

/**
 * Next hands no socket to its handlers, so the connection's own address is noted on the request when it begins, over
 * whatever the client claims in that header.
 */
function notePeers(): void {
  subscribe('http.server.request.start', (message) => {
    const { request } = message as { readonly request: IncomingMessage };
    request.headers[PEER_HEADER] = request.socket.remoteAddress ?? 'unknown';
  });
}

function closeAtEnd(close: () => Promise<void>): void {
  for (const signal of ['SIGTERM', 'SIGINT'] as const) {
    process.once(signal, () => {
      close().then(
        () => process.exit(0),
        (error: unknown) => {
          console.error(error);
          process.exit(1);
        },
      );
    });
  }
}
