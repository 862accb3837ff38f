/** Doc comments of what is public keep to the words of the guides. */
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import ts from 'typescript';
import { expect, it } from 'vitest';
import { givenUpInProse } from './support/words.ts';

const ENTRIES = ['index', 'linkage/index', 'statics/index', 'synthesis/index', 'testing/index'];

/** Doc comments of the exports of a file, with those of their members; `names` are those that another file takes from it. */
function commentsOf(path: string, names: ReadonlySet<string> | null): string[] {
  const source = ts.createSourceFile(path, readFileSync(path, 'utf8'), ts.ScriptTarget.Latest, true);
  return source.statements.flatMap((statement) => {
    if (ts.isExportDeclaration(statement) && statement.moduleSpecifier !== undefined) {
      const { exportClause } = statement;
      const taken =
        exportClause !== undefined && ts.isNamedExports(exportClause)
          ? new Set(exportClause.elements.map(({ name, propertyName }) => (propertyName ?? name).text))
          : null;
      const from = (statement.moduleSpecifier as ts.StringLiteral).text;
      return from.startsWith('.') ? commentsOf(join(dirname(path), from), taken) : [];
    }
    const declared = ts.isVariableStatement(statement)
      ? statement.declarationList.declarations.map(({ name }) => name.getText())
      : 'name' in statement
        ? [(statement.name as ts.Identifier | undefined)?.text]
        : [];
    if (names !== null && !declared.some((name) => name !== undefined && names.has(name))) return [];
    return docsIn(statement).map((text) => `${path}: ${text}`);
  });
}

/** Doc comments of a declaration and of its members; not of what stands inside a function. */
function docsIn(node: ts.Node): string[] {
  const own = ts
    .getJSDocCommentsAndTags(node)
    .filter(ts.isJSDoc)
    .map((doc) =>
      doc
        .getText()
        .replace(/^\s*\*|\/\*\*|\*\/$/gm, '')
        .replace(/\s+/g, ' ')
        .trim(),
    );
  if (ts.isFunctionDeclaration(node)) return own;
  const below: string[] = [];
  ts.forEachChild(node, (child) => {
    if (!ts.isJSDoc(child) && !ts.isArrowFunction(child)) below.push(...docsIn(child));
  });
  return [...new Set([...own, ...below])];
}

it.each(ENTRIES)('of src/%s.ts have no word that was given up', (entry) => {
  const comments = commentsOf(`src/${entry}.ts`, null);
  expect(comments.length).toBeGreaterThan(10);
  const found = comments.flatMap((comment) => {
    const words = givenUpInProse(comment);
    return words.length === 0 ? [] : [`${comment.split(':')[0]}: ${words.join(' | ')}`];
  });
  expect(found).toEqual([]);
});
