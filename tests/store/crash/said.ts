/**
 * What a worker process and the test that started it say to each other: a line of JSON each. A worker says that it asks
 * before it asks, and that it was answered once the use case has returned; so whatever it had said when it was killed
 * tells what must be in the record and what may be.
 */
import type { SettledLoads } from '../../../src/usecases/settlements/settle-loads.ts';

/** A use case called with all that it was given, so that another process can ask the same again. */
export type Asked = { readonly key: string; readonly agreementId: string } & (
  | { readonly verb: 'record-loads'; readonly rows: readonly Row[] }
  | { readonly verb: 'record-results'; readonly rows: readonly Row[] }
  /** One load, or all; `tickets` are those that must be settled afterwards. */
  | { readonly verb: 'settle'; readonly loadId: string | null; readonly tickets: readonly string[] }
);
export type Row = Readonly<Record<string, string>>;

/** Loads and results as they were recorded, or how many loads were settled. */
export type Answer = readonly { readonly id: string }[] | SettledLoads;

export type Said =
  | { readonly said: 'ready'; readonly description: string }
  | { readonly said: 'asking'; readonly asked: Asked }
  | { readonly said: 'answered'; readonly key: string; readonly answer: Answer }
  /** All that was to be asked at once is answered. */
  | { readonly said: 'went' }
  | { readonly said: 'failed'; readonly message: string }
  | { readonly said: 'reopened'; readonly description: string }
  | { readonly said: 'unavailable'; readonly message: string };

/** What a worker is started for. */
export interface Errand {
  readonly databaseUrl: string | undefined;
  readonly dataFolder: string;
  readonly season: Season | undefined;
  /** Loads are recorded in so many loops side by side; with none, the worker only has the record open. */
  readonly lanes: number;
  /** Begins every ticket and key, so that no two workers ask the same. */
  readonly name: string;
  readonly seed: number;
  /** Opens a data folder anew after a failure; else it asks the same again, as it does of a server. */
  readonly reopens: boolean;
  /** Asked before, and perhaps never answered: asked again first. */
  readonly again: readonly Asked[];
  /** Asked so many times at once when told to go; `again` and lanes are left out then. */
  readonly atOnce?: { readonly asked: Asked; readonly times: number; readonly withKey: boolean };
}

/** Parties and agreements that workers record for. */
export interface Season {
  readonly seller: Party;
  readonly buyer: Party;
  readonly agreementIds: readonly string[];
}
type Party = { readonly partyId: string; readonly personId: string; readonly role: 'owner' };
