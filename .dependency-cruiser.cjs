/**
 * Imports point downward: each folder may import only what its line allows (the table stands in DEVELOPERS.md).
 * A folder always may import itself. `types` limits an import of another folder to its type files.
 */
const MAY_IMPORT = {
  'lib/vocabulary': [],
  'lib/stats': [],
  'lib/geography': ['lib/vocabulary'],
  'lib/intake': ['lib/vocabulary', 'lib/geography', 'lib/stats'],
  'lib/cube': ['lib/vocabulary'],
  'lib/findings': ['lib/cube', 'lib/geography', 'lib/stats', 'lib/vocabulary'],
  'lib/disclosure': ['lib/cube', 'lib/geography', 'lib/stats', 'lib/vocabulary'],
  'lib/release': [
    'lib/disclosure',
    'lib/findings',
    'lib/cube',
    'lib/intake',
    'lib/geography',
    'lib/stats',
    'lib/vocabulary',
  ],
  'lib/figures': ['lib/release/types', 'lib/disclosure/types', 'lib/geography', 'lib/vocabulary'],
  'lib/briefing': [
    'lib/figures',
    'lib/release/(types|files/repack)',
    'lib/disclosure/types',
    'lib/findings',
    'lib/geography',
    'lib/stats',
    'lib/vocabulary',
  ],
  'lib/access': ['db', 'lib/vocabulary'],
  'lib/jobs': ['db', 'lib/'],
  db: ['lib/(?!access|jobs)'],
};

const folders = Object.entries(MAY_IMPORT).map(([folder, allowed]) => ({
  name: `${folder.replace('/', '-')}-imports-downward`,
  severity: 'error',
  comment: `${folder} may import only: ${allowed.join(', ') || 'nothing of ours'}`,
  from: { path: `^${folder}/` },
  to: {
    path: '^(lib|db|app|scripts|tests)/',
    pathNot: [`^${folder}/`, ...allowed.map((path) => `^${path}`)],
  },
}));

module.exports = {
  forbidden: [
    ...folders,
    {
      name: 'no-circles',
      severity: 'error',
      comment: 'Data flows one way.',
      from: {},
      to: { circular: true, viaOnly: { dependencyTypesNot: ['type-only'] } },
    },
    {
      name: 'public-pages-read-releases-only',
      severity: 'error',
      comment: 'A public page has no path to an unprotected count.',
      from: { path: '^app/', pathNot: '^app/staff/' },
      to: {
        path: '^(app/staff/|db/|lib/(intake|cube|access|jobs)/|lib/disclosure/(?!types))',
        pathNot: [
          '^db/repositories/published',
          '^db/public',
          '^db/clients?/public',
          '^db/errors',
          '^lib/cube/types',
        ],
      },
    },
    {
      name: 'staff-pages-go-through-repositories',
      severity: 'error',
      comment:
        'A page of the staff side asks repositories; tables, roles and the server are not its business.',
      from: { path: '^app/staff/' },
      to: { path: '^db/', pathNot: ['^db/repositories/', '^db/clients/', '^db/errors'] },
    },
    {
      name: 'nothing-imports-scripts-or-tests',
      severity: 'error',
      from: { path: '^(lib|db|app)/' },
      to: { path: '^(scripts|tests)/' },
    },
    { name: 'resolvable', severity: 'error', from: {}, to: { couldNotResolve: true } },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '^(\\.next|\\.data)/' },
    tsConfig: { fileName: 'tsconfig.json' },
    tsPreCompilationDeps: true,
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'require', 'node', 'default', 'types'],
    },
  },
};
