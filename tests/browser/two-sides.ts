/**
 * A program of its own for a test file, with somebody of the grower's and somebody of the dairy's signed in, each in a browser of
 * their own. The dairy's runs no scripts: everything works without them, too.
 */
import type { Browser } from 'playwright-core';
import { type Browsing, browseAs, launch } from './browsers.ts';
import { newDataFolder, type Program, startProgram } from './program.ts';

export interface TwoSides<Filled> {
  /** What was recorded before the program started. */
  readonly filled: Filled;
  readonly folder: { readonly path: string };
  readonly browser: Browser;
  readonly program: Program;
  readonly seller: Browsing;
  readonly buyer: Browsing;
  readonly close: () => Promise<void>;
}

type Role = Parameters<typeof browseAs>[1]['role'];

/** Fills a data folder and opens it to both; bookkeepers unless `roles` says so. `close` stops and removes all of it. */
export async function openTwoSides<Filled>(
  fill: (dataFolder: string) => Promise<Filled>,
  roles: { readonly seller?: Role; readonly buyer?: Role } = {},
): Promise<TwoSides<Filled>> {
  const browser = await launch();
  const folder = await newDataFolder();
  const filled = await fill(folder.path);
  const program = await startProgram(folder.path);
  const { address } = program;
  const { seller = 'bookkeeper', buyer = 'bookkeeper' } = roles;
  return {
    ...{ filled, folder, browser, program },
    seller: await browseAs(browser, { side: 'grower', role: seller }, { address }),
    buyer: await browseAs(browser, { side: 'dairy', role: buyer }, { address, scripts: false }),
    close: async () => {
      await browser.close();
      await program.stop();
      await folder.remove();
    },
  };
}
