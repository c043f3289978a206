import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vitest/config';
import type { Plugin } from 'vite';

// The pages are built into the program and committed: fixed names and no maps,
// so that a build without a change makes no difference.
export default defineConfig(async ({ mode }) => {
  const plugins: Plugin[] = [...(svelte() as Plugin[])];
  if (mode === 'mock') plugins.push((await import('./mock/server')).mock());
  return {
    plugins,
    build: {
      outDir: '../internal/web/app',
      emptyOutDir: true,
      sourcemap: false,
      modulePreload: false,
      target: 'es2022',
      rollupOptions: {
        output: { entryFileNames: 'app.js', chunkFileNames: '[name].js', assetFileNames: 'app[extname]' },
      },
    },
    test: { include: ['src/**/*.test.ts'] },
  };
});
