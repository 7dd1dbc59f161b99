/**
 * Where this package lies, from its source as from its built program.
 */
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder of this package: the nearest above this file that has its migrations. */
export function packageFolder(): string {
  let folder = dirname(fileURLToPath(import.meta.url));
  while (!existsSync(join(folder, 'prisma', 'migrations'))) {
    const above = dirname(folder);
    if (above === folder) throw new Error('The package has lost its folder prisma/migrations');
    folder = above;
  }
  return folder;
}
