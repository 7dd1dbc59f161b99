#!/usr/bin/env node
/**
 * The `huskledger` program.
 */
import { run } from './run.ts';
import { openTerminal } from './terminal.ts';

// A reader that has seen enough (`huskledger settle DIR | head`) is no failure.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  process.stderr.write(`Standard output cannot be written: ${error.message}\n`);
  process.exit(1);
});

try {
  process.exitCode = await run(process.argv.slice(2), openTerminal(process.stdout, process.stderr));
} catch (error) {
  process.stderr.write(
    `Huskledger met a fault of its own, and nothing more was written. Please report it with the lines below.\n${
      error instanceof Error ? error.stack : String(error)
    }\n`,
  );
  process.exitCode = 1;
}
