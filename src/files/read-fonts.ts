/**
 * The typeface of the papers, from its package.
 */
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';

/** The font files' bytes, as the papers take them. */
export async function readFonts(): Promise<{ readonly regular: Uint8Array; readonly semibold: Uint8Array }> {
  const { resolve } = createRequire(import.meta.url);
  const read = async (path: string) =>
    // A bundler that followed this name would take in the whole package, with what that is missing.
    new Uint8Array(
      await readFile(resolve(/* turbopackIgnore: true */ `@expo-google-fonts/source-sans-3/${path}`)),
    );
  return {
    regular: await read('400Regular/SourceSans3_400Regular.ttf'),
    semibold: await read('600SemiBold/SourceSans3_600SemiBold.ttf'),
  };
}
