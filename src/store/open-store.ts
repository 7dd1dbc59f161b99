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
  /** Does `work` in one transaction that reads everything, as the owner of the tables: for `verify` alone. */
  readonly forAudit: <Answer>(work: (tx: Transaction) => Promise<Answer>) => Promise<Answer>;
  /**
   * Counts what is in the tables, so that statements are planned well: after many rows were written. A server does it by
   * itself; the embedded engine has nobody to.
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

/** Opens the database and brings it up to date. Throws `EngineUnavailable`. */
export async function openStore({ migrations, ...choice }: StoreChoice): Promise<Store> {
  const engine = await openEngine(choice);
  try {
    const pool = await upToDatePool(engine, migrations);
    return storeOver(pool, engine);
  } catch (error) {
    await engine.close();
    throw error;
  }
}

async function upToDatePool(engine: Engine, migrations: string): Promise<Pool> {
  const pool = new Pool({ ...engine.connection, max: CONNECTIONS });
  // A connection that breaks while nobody uses it is replaced by the pool; whoever uses one is told by its query.
  pool.on('error', () => {});
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
    throw toldError(error);
  }
}

function toldError(error: unknown): unknown {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  if (['ECONNREFUSED', 'ENOTFOUND', 'EAI_AGAIN', 'ETIMEDOUT'].includes(code) || code.startsWith('28')) {
    const message = error instanceof Error ? error.message : code;
    return new EngineUnavailable(
      `The database does not let us in (${message || code}). Check DATABASE_URL and that the server runs.`,
    );
  }
  return error;
}

function storeOver(pool: Pool, engine: Engine): Store {
  const prisma = new PrismaClient({ adapter: new PrismaPg(pool) });
  const inRole = <Answer>(role: string, party: string, work: (tx: Transaction) => Promise<Answer>) =>
    prisma.$transaction(async (tx) => {
      await tx.$queryRaw`SELECT set_config('role', ${role}, true), set_config('app.party', ${party}, true)`;
      return await work(tx);
    }, TRANSACTION_TIME);
  return {
    forParty: (partyId, work) => inRole('huskledger_app', partyId, work),
    atDoor: (work) => inRole('huskledger_door', '', work),
    forAudit: (work) => prisma.$transaction(work, TRANSACTION_TIME),
    refreshStatistics: async () => {
      if (engine.isEmbedded) await prisma.$executeRaw`ANALYZE`;
    },
    description: engine.description,
    close: async () => {
      await prisma.$disconnect();
      await pool.end();
      await engine.close();
    },
  };
}
