/**
 * Reads the source and holds it to the rules: who may import whom, and what the pure layers never touch.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';

const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..');
const SRC = join(ROOT, 'src');

interface Layer {
  /** Other layers of ours. */
  readonly layers: readonly string[];
  /** Packages and built-in modules. */
  readonly packages: readonly string[];
}

const LAYERS: Readonly<Record<string, Layer>> = {
  domain: { layers: [], packages: ['zod'] },
  journal: { layers: ['domain'], packages: ['canonicalize', 'node:crypto'] },
  documents: { layers: ['domain', 'journal'], packages: ['fflate', 'fontkit', 'pdf-lib'] },
  environment: { layers: [], packages: ['zod', 'node:path'] },
  files: {
    layers: ['domain'],
    packages: [
      'csv-parse',
      'jsonc-parser',
      'node:fs',
      'node:fs/promises',
      'node:module',
      'node:path',
      'node:stream/promises',
    ],
  },
  mail: { layers: [], packages: ['nodemailer'] },
  store: {
    layers: ['domain', 'journal'],
    packages: [
      '@electric-sql/pglite',
      '@electric-sql/pglite-socket',
      '@prisma/adapter-pg',
      'pg',
      'node:crypto',
      'node:fs/promises',
      'node:net',
      'node:path',
      'node:timers/promises',
    ],
  },
  usecases: {
    layers: ['domain', 'journal', 'documents', 'environment', 'files', 'mail', 'store'],
    packages: ['@node-rs/argon2', 'uuid', 'zod', 'node:crypto', 'node:path'],
  },
  app: {
    layers: ['domain', 'documents', 'environment', 'files', 'mail', 'usecases'],
    packages: [
      'idb',
      'next',
      'react',
      'next-auth',
      'zod',
      'node:crypto',
      'node:diagnostics_channel',
      'node:fs/promises',
      'node:http',
      'node:path',
    ],
  },
  // Next looks for these two beside the folder of its pages.
  'instrumentation.ts': { layers: ['app'], packages: [] },
  'proxy.ts': { layers: [], packages: ['next', 'node:crypto'] },
  cli: {
    layers: ['domain', 'documents', 'environment', 'files', 'usecases'],
    packages: [
      'node:child_process',
      'node:crypto',
      'node:events',
      'node:fs',
      'node:fs/promises',
      'node:module',
      'node:path',
      'node:stream',
      'node:url',
      'node:util',
    ],
  },
};

/** What a pure layer must not name: a clock, chance, the environment, or numbers that are not exact. */
const IMPURE: readonly (readonly [string, RegExp])[] = [
  ['a clock', /\bDate\.now\b|\bnew Date\(\)|\bperformance\b/],
  ['chance', /\bMath\.random\b|\brandomUUID\b/],
  ['the environment', /\bprocess\b|\bglobalThis\b/],
  ['a binary fraction read from text', /\bparseFloat\b|\.toNumber\(/],
];
const PURE = ['domain', 'journal', 'documents'];
const NAMELESS = /(^|\/)(utils?|helpers?|common|misc|types|shared)(\/|\.ts$)/;

function sources(folder: string): string[] {
  return (
    readdirSync(folder, { withFileTypes: true, recursive: true })
      .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name))
      .map((entry) => join(entry.parentPath, entry.name))
      // What Prisma writes is not ours to hold to our rules.
      .filter((path) => !path.includes('/store/generated/'))
  );
}

const FILES = sources(SRC).map((path) => ({
  path,
  name: relative(ROOT, path),
  layer: relative(SRC, path).split('/')[0] ?? '',
  text: readFileSync(path, 'utf8'),
}));

function importsOf(text: string): string[] {
  const found = codeOf(text).matchAll(
    /(?:^|\n)\s*(?:import|export)\b[^;]*?from '([^']+)'|(?:^|\n)\s*import '([^']+)'|\b(?:import|require)\(\s*'([^']+)'/g,
  );
  return [...found].map((match) => match[1] ?? match[2] ?? match[3] ?? '');
}

/** Comments may speak of anything. */
function codeOf(text: string): string {
  return text.replace(/\/\*[\s\S]*?\*\//g, '').replace(/\/\/.*$/gm, '');
}

describe('the source keeps its layers', () => {
  test('every way to import is seen', () => {
    const text =
      "import 'a';\nimport type { B } from 'b';\nexport { C } from 'c';\nawait import('d');\nrequire('e');";
    expect(importsOf(text)).toEqual(['a', 'b', 'c', 'd', 'e']);
  });

  test('every file is in a known layer, and there are some', () => {
    expect(FILES.length).toBeGreaterThan(50);
    expect(FILES.filter(({ layer }) => !(layer in LAYERS)).map(({ name }) => name)).toEqual([]);
  });

  test('imports go in the allowed direction only', () => {
    const wrong = FILES.flatMap(({ path, name, layer, text }) =>
      importsOf(text).flatMap((target) => {
        const rule = LAYERS[layer];
        if (!rule) return [];
        if (!target.startsWith('.'))
          return rule.packages.some((known) => target === known || target.startsWith(`${known}/`))
            ? []
            : [`${name} imports ${target}`];
        // The program says which version it is.
        if (layer === 'cli' && target.endsWith('/package.json')) return [];
        const into = relative(SRC, join(dirname(path), target)).split('/')[0] ?? '';
        return into === layer || rule.layers.includes(into) ? [] : [`${name} imports ${into}`];
      }),
    );
    expect(wrong).toEqual([]);
  });

  test('no import leads round in a circle', () => {
    const targets = new Map(
      FILES.map(({ path, text }) => [
        path,
        importsOf(text)
          .filter((target) => target.startsWith('.'))
          .map((target) => join(dirname(path), target)),
      ]),
    );
    const done = new Set<string>();
    const circle = (path: string, above: readonly string[]): string[] => {
      if (above.includes(path))
        return [[...above.slice(above.indexOf(path)), path].map((at) => relative(SRC, at)).join(' > ')];
      if (done.has(path)) return [];
      const found = (targets.get(path) ?? []).flatMap((target) => circle(target, [...above, path]));
      done.add(path);
      return found;
    };
    expect([...targets.keys()].flatMap((path) => circle(path, []))).toEqual([]);
  });

  test.each(IMPURE)('the pure layers never name %s', (_, pattern) => {
    const wrong = FILES.filter(({ layer, text }) => PURE.includes(layer) && pattern.test(codeOf(text)));
    expect(wrong.map(({ name }) => name)).toEqual([]);
  });

  test('binary numbers stay out of exact arithmetic', () => {
    const exact = FILES.filter(({ name }) =>
      /^src\/domain\/(numbers|settlement\/terms|money|quantities)\//.test(name),
    );
    expect(exact.length).toBeGreaterThan(8);
    const wrong = exact.filter(({ text }) =>
      /[^.\w]\d+\.\d+\b(?!['"`\w])/.test(codeOf(text).replace(/'[^']*'|`[^`]*`/g, '')),
    );
    expect(wrong.map(({ name }) => name)).toEqual([]);
  });

  test('names are kebab-case and say something', () => {
    const wrong = FILES.filter(({ name }) => !/^[a-z0-9/.[\]()-]+$/.test(name) || NAMELESS.test(name));
    expect(wrong.map(({ name }) => name)).toEqual([]);
  });

  test('every file says in its head what lives there', () => {
    const wrong = FILES.filter(({ text }) => !/^(#![^\n]*\n)?\/\*\*?\n/.test(text));
    expect(wrong.map(({ name }) => name)).toEqual([]);
  });

  test('no file is longer than 300 lines', () => {
    const wrong = FILES.filter(({ text }) => text.split('\n').length > 300);
    expect(wrong.map(({ name }) => name)).toEqual([]);
  });
});
