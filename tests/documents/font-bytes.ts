/**
 * The fonts that the tests print with, read once.
 */
import { readFileSync } from 'node:fs';
import type { FontBytes } from '../../src/documents/pdf/typeface.ts';

function fontFile(path: string): Uint8Array {
  const url = new URL(`../../node_modules/@expo-google-fonts/source-sans-3/${path}`, import.meta.url);
  return new Uint8Array(readFileSync(url));
}

export const fonts: FontBytes = {
  regular: fontFile('400Regular/SourceSans3_400Regular.ttf'),
  semibold: fontFile('600SemiBold/SourceSans3_600SemiBold.ttf'),
};
