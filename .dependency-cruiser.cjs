/** Arrows point one way: web -> rig -> analysis; the page reaches analysis and its own folder only. */
module.exports = {
  forbidden: [
    { name: 'analysis-is-pure', severity: 'error', from: { path: '^analysis' }, to: { path: '^(rig|web|tests)' } },
    {
      name: 'analysis-meets-no-machine',
      severity: 'error',
      from: { path: '^analysis' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'analysis-libraries',
      severity: 'error',
      from: { path: '^analysis' },
      to: { path: 'node_modules', pathNot: 'node_modules/(zod|simple-statistics|ml-[a-z-]+|fft\\.js|d3-contour)/' },
    },
    { name: 'rig-knows-no-web', severity: 'error', from: { path: '^rig' }, to: { path: '^(web|tests)' } },
    {
      name: 'page-imports-analysis-only',
      severity: 'error',
      from: { path: '^web/page' },
      to: { path: '^(rig|web/server|tests)' },
    },
    {
      name: 'practice-physics-is-its-own',
      comment:
        'One mistake must not stand on both sides: the practice bench shares units with analysis/ and nothing else.',
      severity: 'error',
      from: { path: '^rig/practiceBench' },
      to: { path: '^analysis', pathNot: '^analysis/units\\.ts$' },
    },
    { name: 'no-circular', severity: 'error', from: {}, to: { circular: true } },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '^(rig|web/page)/dist/' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'node', 'default'] },
  },
};
