/// <reference types="vitest/config" />
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';

const API = process.env.FLITCHBOOK_API ?? 'http://127.0.0.1:8000';

export default defineConfig(({ mode }) => ({
  base: '/',
  plugins: [
    svelte(),
    VitePWA({
      strategies: 'injectManifest',
      srcDir: 'src/sw',
      filename: 'sw.ts',
      registerType: 'prompt',
      injectRegister: false,
      injectManifest: { globPatterns: ['**/*.{html,js,css,svg,png,woff2}'] },
      manifest: {
        id: '/',
        name: 'Flitchbook',
        short_name: 'Flitchbook',
        description: 'Commissions, boards, layouts, finish and papers of a furniture workshop.',
        start_url: '/',
        scope: '/',
        display: 'standalone',
        background_color: '#f4ecdd',
        theme_color: '#f4ecdd',
        icons: [
          { src: '/icon-192.png', sizes: '192x192', type: 'image/png' },
          { src: '/icon-512.png', sizes: '512x512', type: 'image/png' },
          { src: '/icon-maskable-512.png', sizes: '512x512', type: 'image/png', purpose: 'maskable' },
          { src: '/icon.svg', sizes: 'any', type: 'image/svg+xml' },
        ],
      },
    }),
  ],
  // Without this, vitest would load Svelte's server build.
  resolve: mode === 'test' ? { conditions: ['browser'] } : undefined,
  server: { proxy: { '/api': API } },
  test: { include: ['src/**/*.spec.ts'], environment: 'node', css: true },
}));
