import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitepress';
import { CONTENTS } from '../contents.mjs';

const { version, description } = JSON.parse(readFileSync(new URL('../../../package.json', import.meta.url)));
const api = JSON.parse(readFileSync(new URL('../pages/api/typedoc-sidebar.json', import.meta.url)));
/** Modules by the names under which they are imported. */
const modules = api.map(({ text, link }) => ({ text: text === 'index' ? 'jounce' : `jounce/${text}`, link }));

const groups = CONTENTS.map(({ text, pages }) => ({
  text,
  items: pages.map(([page, title]) => ({ text: title, link: `/${page}` })),
}));

/** @param {string} entry */
const built = (entry) => fileURLToPath(new URL(`../../../dist/${entry}.js`, import.meta.url));

/** @param {string} module */
const source = (module) => fileURLToPath(new URL(`../../../src/${module}.ts`, import.meta.url));

export default defineConfig({
  title: 'jounce',
  description,
  lang: 'en-GB',
  srcDir: 'pages',
  outDir: '../../out/site',
  cleanUrls: false,
  head: [['link', { rel: 'icon', href: 'data:,' }]],
  markdown: {
    theme: { light: 'github-light-high-contrast', dark: 'github-dark-high-contrast' },
    config(md) {
      // Indented code as fenced code: it scrolls by itself and does not widen the page.
      const { fence } = md.renderer.rules;
      md.renderer.rules.code_block = (tokens, index, ...rest) => {
        tokens[index].info = 'txt';
        return fence(tokens, index, ...rest);
      };
    },
  },
  themeConfig: {
    nav: [
      ...groups.map(({ text, items }) => ({ text, link: items[0].link })),
      { text: 'API', link: '/api/', activeMatch: '/api/' },
    ],
    sidebar: {
      '/api/': [{ text: 'API', items: modules }],
      '/': [{ text: `jounce ${version}`, items: [{ text: 'What it does', link: '/' }] }, ...groups],
    },
    outline: [2, 3],
    search: {
      provider: 'local',
      options: {
        // All of the words; a guide before a name of the API and before what has changed.
        miniSearch: {
          searchOptions: {
            combineWith: 'AND',
            boostDocument: (id) => (/\/api\/|changelog|contributors/.test(id) ? 0.2 : 1),
          },
        },
      },
    },
    docFooter: { prev: 'Before', next: 'Next' },
  },
  vite: {
    // The library as its users get it.
    resolve: {
      alias: [
        { find: /^jounce$/, replacement: built('index') },
        { find: /^jounce\/(\w+)$/, replacement: built('$1') },
        // What its own pictures are drawn with, for the live ones: not exported, so from the sources.
        { find: /^#jounce\/(.+)\.js$/, replacement: source('$1') },
      ],
    },
    build: { target: 'es2022', chunkSizeWarningLimit: 2000 },
    worker: { format: 'es' },
  },
});
