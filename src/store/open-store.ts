/**
 * The one gate to the database. Work is done in a transaction that acts for a party, or at the door; there is no other
 * way in, so nothing is ever read or written with the rights of whoever owns the tables.
 */
import { PrismaPg } from '@prisma/adapter-pg';
import { Pool } from 'pg';
import { applyMigrations } from './engine/apply-migrations.ts';
import { type Engine, type EngineChoice, EngineUnavailable, openEngine } from './engine/open-engine.ts';
import { type Prisma, PrismaClient } from './generated/client.ts';

/** A transaction under way. */
export type Transaction = Prisma.TransactionClient;

export interface Store {
  /** Does `work` in one transaction, seeing and writing only what the party may. */
  readonly forParty: <Answer>(partyId: string, work: (tx: Transaction) => Promise<Answer>) => Promise<Answer>;
  /** Does `work` in one transaction that sees people, sessions and parties, and nothing that a party recorded. */
  readonly atDoor: <Answer>(work: (tx: Transaction) => Promise<Answer>) => Promise<Answer>;
  /** Does `work` in one transaction that sees what sellers show to anybody, and nothing else. */
  readonly forPublic: <Answer>(work: (tx: Transaction) => Promise<Answer>) => Promise<Answer>;
  /** Does `work` in one transaction that reads everything, as the owner of the tables: for `verify` alone. */
  readonly forAudit: <Answer>(work: (tx: Transaction) => Promise<Answer>) => Promise<Answer>;
  /**
   * Counts what is in the tables, so that statements are planned well: after many rows were written. A server would do it
   * by itself a minute later; the embedded engine has nobody to.
   */
  readonly refreshStatistics: () => Promise<void>;
  readonly description: string;
  readonly close: () => Promise<void>;
}

export interface StoreChoice extends EngineChoice {
  /** The folder `prisma/migrations`. */
  readonly migrations: string;
}

/** Longest that a transaction may take and wait for its turn. A whole season may settle in one. */
const TRANSACTION_TIME = { timeout: 300_000, maxWait: 60_000 };
const CONNECTIONS = 10;
/** Longest that a connection may take. Whoever works at length in a data folder makes others wait for theirs. */
const CONNECT_MS = 60_000;
/** How often work is begun again after the process that served the data folder has ended. */
const MOST_TRIES = 3;

/** Opens the database and brings it up to date. Throws `EngineUnavailable`. */
export async function openStore({ migrations, ...choice }: StoreChoice): Promise<Store> {
  const engine = await openEngine(choice);
  try {
    const pool = await beginning(engine, () => upToDatePool(engine, migrations));
    return storeOver(pool, engine);
  } catch (error) {
    await engine.close();
    throw toldError(error);
  }
}

/**
 * Does what `attempt` does; where the process that served the data folder has ended, again with whoever serves it now.
 * `attempt` says by `begun` that it must not be done again.
 */
async function beginning<Answer>(
  engine: Engine,
  attempt: (begun: () => void) => Promise<Answer>,
): Promise<Answer> {
  for (let tries = 1; ; tries++) {
    let isBegun = false;
    try {
      return await attempt(() => {
        isBegun = true;
      });
    } catch (error) {
      if (isBegun || tries >= MOST_TRIES || error instanceof EngineUnavailable) throw error;
      if (!(await engine.recover())) throw error;
    }
  }
}

async function upToDatePool(engine: Engine, migrations: string): Promise<Pool> {
  const pool = new Pool({ ...engine.connection, max: CONNECTIONS, connectionTimeoutMillis: CONNECT_MS });
  // A connection that breaks while nobody uses it is replaced by the pool; whoever uses one is told by its query.
  pool.on('error', () => {});
  // Without a listener of our own, one that breaks as it changes hands ends the program.
  pool.on('connect', (client) => client.on('error', () => {}));
  try {
    const client = await pool.connect();
    try {
      await applyMigrations(client, migrations);
    } finally {
      client.release();
    }
    return pool;
  } catch (error) {
    await pool.end();
    throw error;
  }
}

/** Codes of the network, and of a server that lets nobody in: wrong password, no such database, full, starting. */
const NO_WAY_IN = /^(ECONNREFUSED|ENOTFOUND|EAI_AGAIN|ETIMEDOUT|28...|3D000|53300|57P03)$/;

function toldError(error: unknown): unknown {
  if (!(error instanceof Error)) return error;
  const code = 'code' in error ? String(error.code) : '';
  const noSocket = code === 'ENOENT' && 'syscall' in error && error.syscall === 'connect';
  if (noSocket || NO_WAY_IN.test(code)) {
    return new EngineUnavailable(
      `The database does not let us in (${error.message || code}). Check DATABASE_URL and that the server runs.`,
    );
  }
  // The driver says this in several ways, and without a code.
  if (/timeout/.test(error.message)) {
    return new EngineUnavailable(
      `The database has not answered for ${CONNECT_MS / 1_000} seconds. It may be at long work; try again later.`,
    );
  }
  return error;
}

function storeOver(pool: Pool, engine: Engine): Store {
  const prisma = new PrismaClient({ adapter: new PrismaPg(pool) });
  const transact = <Answer>(work: (tx: Transaction) => Promise<Answer>) =>
    beginning(engine, (begun) =>
      prisma.$transaction(async (tx) => {
        begun();
        return await work(tx);
      }, TRANSACTION_TIME),
    );
  const inRole = <Answer>(role: string, party: string, work: (tx: Transaction) => Promise<Answer>) =>
    transact(async (tx) => {
      if (engine.isShared) await tx.$queryRaw`SELECT set_config('session_replication_role', 'origin', true)`;
      // A server takes statements under policies for long ones and compiles them first: six times as long as to run them.
      await tx.$queryRaw`SELECT set_config('role', ${role}, true), set_config('app.party', ${party}, true), set_config('jit', 'off', true)`;
      return await work(tx);
    });
  return {
    forParty: (partyId, work) => inRole('huskledger_app', partyId, work),
    atDoor: (work) => inRole('huskledger_door', '', work),
    forPublic: (work) => inRole('huskledger_public', '', work),
    forAudit: transact,
    refreshStatistics: async () => {
      await prisma.$executeRaw`ANALYZE`;
    },
    description: engine.description,
    close: async () => {
      await prisma.$disconnect();
      await pool.end();
      await engine.close();
    },
  };
}
