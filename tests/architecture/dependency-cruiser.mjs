/**
 * The one-way rule: facts and shapes at the bottom, then the engine, then store, workers, host and components, then
 * features, then the app. The shell and the page meet only in shared-types. Each comment says where the line wanted
 * to live; `layers.test.ts` plants one fault for each rule.
 */

/** The folders of the page, from `renderer/`, that each room of the page may import from. */
const MAY_IMPORT = {
  workers: ['workers', 'engine'],
  store: ['store', 'engine'],
  host: ['host', 'engine'],
  components: ['components', 'engine'],
  features: ['features', 'components', 'workers', 'store', 'host', 'engine'],
};

/** Every folder of ours; what lies elsewhere is a library or Node. */
const OURS = '^(electron|renderer|shared-types|data|tests)/';
const SHELL = '^electron/(?!headless/|launch/|packaging/)';
/** The files that hold the bundler's settings, the one that starts it, and what packs: build tools, not program. */
const BUILD = ['^(renderer|electron)/vite[a-z.]*config\\.ts$', '^electron/launch/build\\.ts$', '^electron/packaging/'];

/** The path pattern of an installed package, its types included. */
const library = (name) => `(^|/)node_modules/(@types/)?${name}/`;

const roomOfThePage = (room, bottom, comment) => ({
  name: `${room}-look-down`,
  severity: 'error',
  comment,
  from: { path: `^renderer/${room}/` },
  to: { path: OURS, pathNot: [...MAY_IMPORT[room].map((name) => `^renderer/${name}/`), ...bottom] },
});

/** @type {import('dependency-cruiser').IConfiguration} */
export default {
  forbidden: [
    {
      name: 'data-imports-nothing',
      severity: 'error',
      comment: 'data/ holds published facts and no code. Code that reads a fact lives in renderer/engine/handbook.',
      from: { path: '^data/' },
      to: {},
    },
    {
      name: 'shared-types-stand-alone',
      severity: 'error',
      comment:
        'shared-types/ is what shell and page both may read, so it imports itself and zod only. Code that computes lives in renderer/engine.',
      from: { path: '^shared-types/' },
      to: { pathNot: ['^shared-types/', library('zod')] },
    },
    {
      name: 'zod-through-schema',
      severity: 'error',
      comment: 'shared-types/schema.ts sets zod up to run without eval. Import `z` from there.',
      from: { pathNot: '^shared-types/schema\\.ts$|node_modules' },
      to: { path: library('zod') },
    },
    {
      name: 'engine-looks-down',
      severity: 'error',
      comment:
        'The engine computes; it knows the facts and the shapes. What it needs from above comes in as an argument. A line that stores lives in renderer/store, one that is seen in renderer/features, one that reads a file in electron/.',
      from: { path: '^renderer/engine/' },
      to: { path: OURS, pathNot: ['^renderer/engine/', '^shared-types/', '^data/'] },
    },
    {
      name: 'engine-without-node',
      severity: 'error',
      comment:
        'The engine runs in a page, a worker and a command line alike. A line that reads a disk lives in electron/handlers or electron/headless, and hands the engine the text.',
      from: { path: '^renderer/engine/' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'engine-named-libraries',
      severity: 'error',
      comment:
        'The engine uses convert-units, fflate, highs, lean-qr, papaparse and pure-rand, and no screen. A widget lives in renderer/components; a new library of the engine is named here first.',
      from: { path: '^renderer/engine/' },
      to: {
        path: '(^|/)node_modules/',
        pathNot: ['convert-units', 'fflate', 'highs', 'lean-qr', 'papaparse', 'pure-rand', 'zod'].map(library),
      },
    },
    roomOfThePage(
      'workers',
      ['^shared-types/'],
      'A worker carries a message to the engine and its answer back. What it would compute lives in renderer/engine; what it would show or keep lives in renderer/features.',
    ),
    roomOfThePage(
      'store',
      ['^shared-types/', '^data/'],
      'The store keeps what the user owns. A screen that shows it lives in renderer/features, and calls the store.',
    ),
    roomOfThePage(
      'host',
      ['^shared-types/', '^data/'],
      'renderer/host speaks to the shell, or stands in for it. What is done with the answer lives in renderer/features.',
    ),
    roomOfThePage(
      'components',
      ['^shared-types/'],
      'A shared widget is told everything by its props. What fetches, keeps or sends lives in renderer/features; a fact comes through the engine.',
    ),
    roomOfThePage(
      'features',
      ['^shared-types/', '^data/'],
      'A feature is put together by the app and knows nothing of it. What two features and the app share lives in renderer/components, store or host.',
    ),
    {
      name: 'no-screen-below-screens',
      severity: 'error',
      comment:
        'Workers, store and host run without a screen. A hook or a widget lives in renderer/components or features.',
      from: { path: '^renderer/(workers|store|host)/' },
      to: { path: '(^|/)node_modules/((@types/)?react(-dom)?|@mantine|@tanstack)/' },
    },
    {
      name: 'dexie-in-the-store',
      severity: 'error',
      comment:
        'Only the store knows which database it is. The query lives in renderer/store as a function with a name.',
      from: { pathNot: '^(renderer/store|tests)/|node_modules' },
      to: { path: library('dexie') },
    },
    {
      name: 'page-without-shell',
      severity: 'error',
      comment:
        'The page is a web page: it has no Node and does not know the shell. Ask the host: its interface lives in shared-types/host.ts, the work in electron/handlers.',
      from: { path: '^renderer/', pathNot: ['^renderer/engine/', ...BUILD] },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'app-looks-down',
      severity: 'error',
      comment:
        'The app puts the page together from renderer/ and shared-types/. What the shell does is asked for through renderer/host.',
      from: { path: '^renderer/[^/]+\\.tsx?$', pathNot: BUILD },
      to: { path: OURS, pathNot: ['^renderer/', '^shared-types/', '^data/'] },
    },
    {
      name: 'shell-meets-page-in-shared-types',
      severity: 'error',
      comment:
        'The shell opens the window and touches disk and printer; it computes nothing. A shape both sides need lives in shared-types/, a command of the engine in electron/headless.',
      from: { path: SHELL, pathNot: BUILD },
      to: { path: OURS, pathNot: [SHELL, '^electron/launch/', '^shared-types/'] },
    },
    {
      name: 'journal-for-both-hosts',
      severity: 'error',
      comment:
        'The journal is the same under Electron and under the loopback server, so it knows neither. What a channel or a route adds lives in electron/handlers or electron/launch.',
      from: { path: '^electron/journal/' },
      to: {
        path: [OURS, library('electron')],
        pathNot: [
          '^electron/(journal|files)/',
          '^electron/site/refusal\\.ts$',
          '^electron/(oneAtATime|isAlive)\\.ts$',
          '^shared-types/',
        ],
      },
    },
    {
      name: 'launch-looks-down',
      severity: 'error',
      comment:
        'The launcher builds, serves and starts; it knows the shell and the shapes. A command that computes lives in electron/headless. (Its build may read the settings in renderer/vite.config.ts.)',
      from: { path: '^electron/launch/', pathNot: BUILD },
      to: { path: OURS, pathNot: [SHELL, '^electron/launch/', '^shared-types/'] },
    },
    {
      name: 'build-looks-down',
      severity: 'error',
      comment: 'The build reads the bundler’s settings and the launcher. What the program does lives elsewhere.',
      from: { path: BUILD },
      to: { path: OURS, pathNot: [...BUILD, SHELL, '^electron/launch/', '^shared-types/'] },
    },
    {
      name: 'headless-looks-down',
      severity: 'error',
      comment:
        'A headless command reads arguments, calls the engine and prints; the journal is read by its own room. What it would share with a window lives in renderer/engine or shared-types/.',
      from: { path: '^electron/headless/' },
      to: {
        path: OURS,
        pathNot: ['^electron/(headless|journal|files)/', '^renderer/engine/', '^shared-types/', '^data/'],
      },
    },
    {
      name: 'electron-in-the-shell',
      severity: 'error',
      comment:
        'Electron is known to the shell alone: importing it elsewhere ends in a download. The page asks renderer/host, a command needs no window.',
      from: { path: OURS, pathNot: SHELL },
      to: { path: library('electron') },
    },
    {
      name: 'playwright-in-launch-and-tests',
      severity: 'error',
      comment:
        'Steering a browser is the launcher’s work (printing without Electron), the packing’s (the icon) and the tests’. It lives in electron/launch.',
      from: { path: OURS, pathNot: '^(electron/(launch|packaging)|tests)/' },
      to: { path: '(^|/)node_modules/playwright(-core)?/' },
    },
    {
      name: 'program-without-test-tools',
      severity: 'error',
      comment:
        'What the program imports must be there after an install without devDependencies. Move the package to dependencies, or the line to tests/. (Electron brings itself; the build is run from a full install.)',
      from: { path: '^(electron|renderer|shared-types)/', pathNot: BUILD },
      to: {
        dependencyTypes: ['npm-dev'],
        dependencyTypesNot: ['type-only'],
        pathNot: library('electron'),
      },
    },
    {
      name: 'reference-stands-alone',
      severity: 'error',
      comment:
        'tests/reference checks the engine’s stack, bag and plan by another road, so it may not share a line with them, at any distance. What both need is a shape, and lives in shared-types/.',
      from: { path: '^tests/reference/' },
      to: { path: '^renderer/engine/(stack|bag|plan)/', reachable: true },
    },
    {
      name: 'no-cycles',
      severity: 'error',
      comment: 'Two files that need each other are one file, or hide a third. Move what both need below both.',
      from: {},
      to: { circular: true },
    },
    {
      name: 'no-orphans',
      severity: 'error',
      comment: 'A file that imports nothing and that nothing imports is not part of the program. Use it or delete it.',
      from: {
        orphan: true,
        pathNot: ['\\.d\\.ts$', '^tests/architecture/[^/]+\\.mjs$'],
      },
      to: {},
    },
    {
      name: 'everything-resolves',
      severity: 'error',
      comment: 'The import leads nowhere: a name misspelt, or a package that package.json does not list.',
      from: {},
      // Vite answers this one: the address of the solver's binary, which is no module.
      to: { couldNotResolve: true, pathNot: '^highs/runtime\\?url$' },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    // Types count too: a shape imported from the wrong room is a line in the wrong room.
    tsPreCompilationDeps: true,
    enhancedResolveOptions: {
      extensions: ['.ts', '.tsx', '.mjs', '.js', '.json', '.css'],
      exportsFields: ['exports'],
      conditionNames: ['import', 'browser', 'default', 'types'],
    },
  },
};
