import type { NextConfig } from 'next';

const config: NextConfig = {
  poweredByHeader: false,
  // The server in scripts/serve.ts compresses with brotli and gzip and makes its own ETags.
  compress: false,
  generateEtags: false,
  images: { unoptimized: true },
  // Browsers that look for the old address find the mark.
  redirects: async () => [{ source: '/favicon.ico', destination: '/mark.svg', permanent: true }],
  // Node loads these as they are: a bundler mixes up the two module formats of what turf stands on.
  serverExternalPackages: ['postgres', '@turf/turf'],
  // Types are a stage of `npm test`; the demo's build need not repeat it.
  typescript: { ignoreBuildErrors: true },
};

export default config;
