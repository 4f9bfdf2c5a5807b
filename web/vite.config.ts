import { defineConfig } from 'vite';

export default defineConfig({
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  build: {
    outDir: '../dist/web',
    emptyOutDir: true,
    target: 'es2022',
    // The page's content-security policy allows its own files only, and no data: addresses.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rolldownOptions: {
      input: ['web/index.html', 'web/shell-worker.ts'],
      // The worker is looked for under one name for ever; its own text says when it has changed.
      output: { entryFileNames: ({ name }) => (name === 'shell-worker' ? '[name].js' : 'assets/[name]-[hash].js') },
    },
  },
});
