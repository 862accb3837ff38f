import type { Diagnostic } from '../diagnostic.ts';
import type { Units } from '../units.ts';
import { capital, ended, spaced } from '../words.ts';
import { line } from './line.ts';
import type { Words } from './plain.ts';
import { worded } from './worded.ts';

/** A diagnostic as a line: `path: problem, got X (allowed: Y); advice`. An issue of an `InputError` keeps the words that it has. */
export function describeIssue(diagnostic: Diagnostic, units: Units = 'metric'): string {
  return line(wordsOf(diagnostic, units), diagnostic.path);
}

/** The same without the path, as a sentence: with a capital, and a full stop. */
export function sentence(diagnostic: Diagnostic, units: Units = 'metric'): string {
  return ended(capital(line(wordsOf(diagnostic, units))));
}

/**
 * The same in lines: the problem, after the axle of a car that it is about; `found:` the value and its place in the input; `required:` or, of names, `allowed:`, of a check `usual:`; `fix:` what to do.
 * A line that has nothing to say is left out.
 */
export function issueLines(diagnostic: Diagnostic, units: Units = 'metric'): string[] {
  const { problem, got, allowed, usual, advice } = wordsOf(diagnostic, units);
  const { code, path, severity, values } = diagnostic;
  const parts = severity === 'error' ? [path, got] : [got, path];
  const found = parts
    .filter((part) => part !== undefined && part !== '')
    .join(severity === 'error' ? ' = ' : ', ');
  const lines = [
    ['found:', found],
    [Array.isArray(values.allowed) ? 'allowed:' : 'required:', allowed],
    ['usual:', usual],
    ['fix:', advice],
  ];
  const [, axle] = severity === 'error' ? [] : (/^corners\.(front|rear)\b/.exec(path) ?? []);
  const whole = code === 'outOfRange' ? `${named(path)}${problem}` : problem;
  return [
    ended(capital(axle === undefined ? whole : `${axle}: ${whole}`)),
    ...lines.flatMap(([label, text]) => (text ? [`  ${`${label}`.padEnd(10)}${text}`] : [])),
  ];
}

/** The quantity at the end of a path, for a problem that does not name it: `spring rate `; nothing without a name there. */
function named(path: string): string {
  const [name] = /[A-Za-z]+(?=[^A-Za-z]*$)/.exec(path.replace(/\.value$/, '')) ?? [];
  return name === undefined ? '' : `${spaced(name)} `;
}

function wordsOf(diagnostic: Diagnostic | (Diagnostic & Words), units: Units): Words {
  return 'problem' in diagnostic ? diagnostic : worded(diagnostic, units);
}
