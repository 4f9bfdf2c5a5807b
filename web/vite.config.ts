import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { marked } from 'marked';
import { defineConfig, type Plugin } from 'vite';
import { languages, writing } from '../shared/language/language.ts';

const guideFolder = join(import.meta.dirname, '../firmware-protocol/guide');

/**
 * Inserts the build guide into its page, and links to its other languages; its pictures become files of the page, named
 * by their content.
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
          // On a phone a picture is wider than the page and scrolls.
          return text.replaceAll(
            '<p><img src="',
            '<p class="picture" tabindex="0"><img src="../firmware-protocol/guide/',
          );
        }),
  },
};

/**
 * Lets the bundler leave out the scales of chart.js that the page does not use: it retains a class with a static field that reads a
 * property, since a read may have effects, and takes our word that these have none.
 */
const unusedScales: Plugin = {
  name: 'unused-scales',
  transform: (code, id) =>
    /chart\.js\/dist\/chart\.js$/.test(id)
      ? code.replaceAll(/\b(?:TimeScale\.defaults|Ticks\.formatters\.\w+)(?=[;,\n])/g, '/*#__PURE__*/ (() => $&)()')
      : undefined,
};

export default defineConfig({
  plugins: [guide, unusedScales],
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
      // The worker must always have the same name; its content shows when it has changed.
      output: {
        entryFileNames: ({ name }) => (name === 'shell-worker' ? '[name].js' : 'assets/[name]-[hash].js'),
        // The first screen in one file: it takes fewer bytes than a dozen that import each other.
        codeSplitting: { groups: [{ name: 'first', test: /web\/views\/frame\.tsx$/ }] },
      },
    },
  },
});
