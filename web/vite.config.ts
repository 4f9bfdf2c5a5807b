import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { marked } from 'marked';
import { defineConfig, type Plugin } from 'vite';
import { languages, writing } from '../shared/language/language.ts';

const guideFolder = join(import.meta.dirname, '../firmware-protocol/guide');

/**
 * Puts the build guide in its place, and links to its other languages; its pictures become files of the page, named by their
 * content.
 */
const guide: Plugin = {
  name: 'guide',
  transformIndexHtml: {
    order: 'pre',
    handler: (html, { path }) =>
      html
        .replace('<!-- other languages -->', () =>
          languages
            .filter((language) => path !== `/guide.${language}.html`)
            .map((language) => `<a href="/guide.${language}.html" lang="${language}">${writing[language].name}</a>`)
            .join('\n        '),
        )
        .replace(/<!-- (guide\.\w+\.md) -->/, (_, name: string) => {
          const text = marked.parse(readFileSync(join(guideFolder, name), 'utf8'), { async: false });
          // On a phone a picture is wider than the page, and moved under the finger.
          return text.replaceAll(
            '<p><img src="',
            '<p class="picture" tabindex="0"><img src="../firmware-protocol/guide/',
          );
        }),
  },
};

export default defineConfig({
  plugins: [guide],
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  build: {
    outDir: '../dist/web',
    emptyOutDir: true,
    target: 'es2022',
    // The page's content-security policy allows its own files only, and no data: addresses.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rolldownOptions: {
      input: ['web/index.html', ...languages.map((language) => `web/guide.${language}.html`), 'web/shell-worker.ts'],
      // The worker is looked for under one name for ever; its own text says when it has changed.
      output: {
        entryFileNames: ({ name }) => (name === 'shell-worker' ? '[name].js' : 'assets/[name]-[hash].js'),
        // What the first screen waits for, in one file: it takes fewer bytes than a dozen with imports of each other.
        codeSplitting: { groups: [{ name: 'first', test: /web\/views\/frame\.tsx$/ }] },
      },
    },
  },
});
