// Where the code of the package comes from: its own sources, and packages that THIRD-PARTY.md names with their copyright lines.

import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** Packages that another has put into a file of its own. */
const WITHIN: Readonly<Record<string, readonly string[]>> = {
  'ml-matrix': ['is-any-array', 'ml-array-max', 'ml-array-min', 'ml-array-rescale'],
};

/** The package that a bundled file is of; null for a source of ours. The bundler's own lines are rolldown's. */
function packageOf(file: string): string | null {
  const [, name] = /node_modules\/((?:@[^/]+\/)?[^/]+)\/(?!.*node_modules\/)/.exec(file) ?? [];
  if (name !== undefined) return name;
  if (file.startsWith('src/') && existsSync(file)) return null;
  return file.split('/')[0];
}

/** Packages whose code is in `dist`, as the build has noted it; and what THIRD-PARTY.md lacks of them. */
export function provenance(): {
  readonly packages: string[];
  readonly files: number;
  readonly missing: string[];
} {
  const notes = readdirSync('out/provenance').map((name) => join('out/provenance', name));
  const files: string[] = notes.flatMap((note) => JSON.parse(readFileSync(note, 'utf8')));
  const found = files.map(packageOf).filter((name) => name !== null);
  const packages = [...new Set(found.flatMap((name) => [name, ...(WITHIN[name] ?? [])]))].sort();
  const named = readFileSync('THIRD-PARTY.md', 'utf8');
  const missing = packages.flatMap((name) => {
    const home = join('node_modules', name);
    const [licence] = existsSync(home) ? readdirSync(home).filter((file) => /^licen[cs]e/i.test(file)) : [];
    if (licence === undefined) return [`${name}: no licence to be read`];
    const lines = readFileSync(join(home, licence), 'utf8').split('\n');
    const copyright = lines.map((line) => line.trim()).filter((line) => /^copyright .*\d{4}/i.test(line));
    const wanted = [name, ...copyright];
    return wanted.filter((text) => !named.includes(text)).map((text) => `${name}: ${text}`);
  });
  return { packages, files: files.length, missing };
}
