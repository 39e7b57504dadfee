import type { NextConfig } from 'next';

const config: NextConfig = {
  poweredByHeader: false,
  // The server in scripts/serve.ts compresses with brotli and gzip and makes its own ETags.
  compress: false,
  generateEtags: false,
  images: { unoptimized: true },
  serverExternalPackages: ['postgres'],
  // Types are a stage of `npm test`; the demo's build need not repeat it.
  typescript: { ignoreBuildErrors: true },
};

export default config;
