import type { NextConfig } from 'next';

/** Beginnings of addresses that are not those of a page of the first language. */
const OTHER_ROUTES = [
  'en/',
  'es$',
  'es/',
  '_next/',
  'api/v1/',
  'feeds/',
  'outlines/',
  'releases/\\d+/.',
  'staff$',
  'staff/',
].join('|');

const config: NextConfig = {
  poweredByHeader: false,
  // The server in scripts/serve.ts compresses with brotli and gzip and makes its own ETags.
  compress: false,
  generateEtags: false,
  images: { unoptimized: true },
  // Browsers that look for the old address find the mark.
  redirects: async () => [
    { source: '/favicon.ico', destination: '/mark.svg', permanent: true },
    // The first language has addresses without a language in front, and no second ones with it.
    { source: '/en', destination: '/', permanent: true },
    { source: '/en/:path*', destination: '/:path*', permanent: true },
  ],
  rewrites: async () => ({
    beforeFiles: [],
    // Pages stand below `[language]`; whatever is a page of no other kind is looked for there.
    afterFiles: [
      { source: '/', destination: '/en' },
      { source: `/:path((?!${OTHER_ROUTES}).+)`, destination: '/en/:path' },
    ],
    fallback: [],
  }),
  // Node loads these as they are: a bundler mixes up the two module formats of what turf stands on.
  serverExternalPackages: [
    'postgres',
    'pdfkit',
    'pptxgenjs',
    '@resvg/resvg-js',
    '@turf/turf',
    '@node-rs/argon2',
    'better-auth',
    'nodemailer',
    'pg-boss',
  ],
  // Types are a stage of `npm test`; the demo's build need not repeat it.
  typescript: { ignoreBuildErrors: true },
};

export default config;
