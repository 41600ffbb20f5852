// The house: arrows point down only and never in a circle.
const rule = (name, comment, from, to) => ({ name, comment, severity: "error", from, to });
const pure = "^(core|papers|words|write|desk)/";
module.exports = {
  forbidden: [
    rule("no-circle", "no import circle anywhere", {}, { circular: true }),
    rule("core-is-pure", "core imports nothing above it and nothing of Node", { path: "^core/", pathNot: "\\.test\\.ts$" }, { path: "^(papers|words|write|desk|apps|index\\.ts)" }),
    rule("no-node-below-apps", "only apps/ does input and output", { path: pure, pathNot: "\\.test\\.ts$" }, { dependencyTypes: ["core"] }),
    rule("base-is-ground", "base imports nothing else", { path: "^core/base/" }, { path: "^(?!core/base/)(core|papers|words|write|desk|apps)/" }),
    rule("geometry-low", "geometry stands on base", { path: "^core/geometry/", pathNot: "\\.test\\.ts$" }, { path: "^core/(?!base/|geometry/)" }),
    rule("solve-low", "solve stands on base and geometry", { path: "^core/solve/", pathNot: "\\.test\\.ts$" }, { path: "^core/(?!base/|geometry/|solve/)" }),
    rule("stages-see-records", "a stage sees other stages' records, not their functions", { path: "^core/stages/([^/]+)/", pathNot: "\\.test\\.ts$|/test-" }, { path: "^core/stages/", pathNot: "^core/stages/($1/|[^/]+/record\\.ts$)" }),
    rule("stages-below-plan", "stages do not know the story, the checker or the progress", { path: "^core/stages/", pathNot: "\\.test\\.ts$|/test-" }, { path: "^core/(plan|check|progress)/" }),
    rule("check-is-other-code", "the checker shares types and tolerances only", { path: "^core/check/", pathNot: "\\.test\\.ts$" }, { path: "^core/(geometry|solve|stages)/", dependencyTypesNot: ["type-only"] }),
    rule("words-have-no-papers", "words know findings only", { path: "^words/" }, { path: "^(papers|write|desk|apps)/" }),
    rule("papers-have-no-writers", "papers know no file format", { path: "^papers/", pathNot: "\\.test\\.ts$" }, { path: "^(write|desk|apps)/" }),
    rule("database-in-store", "only store/ touches the database", { path: "^apps/web/(?!store/)" }, { path: "node_modules/idb/" }),
    rule("worker-in-desk", "only desk/ knows what runs in the worker", { path: "^apps/web/(?!desk/|open\\.ts)", pathNot: "\\.test\\.ts$" }, { path: "^apps/web/desk/(work|draw|papers|trial|plan\\.worker|trial\\.worker)\\.ts$" }),
    rule("page-stays-small", "stages, papers' writers and sentences of plans run in the worker: the page knows their types", { path: "^apps/web/(?!desk/|test/)", pathNot: "\\.test\\.ts$" }, { path: "^(write|desk|core/(stages|check|plan))/", dependencyTypesNot: ["type-only"] }),
    rule("no-dev-in-product", "nothing shipped needs a development package", { path: "^(core|papers|words|write|desk|apps|index\\.ts)", pathNot: "\\.test\\.ts$|apps/web/(test/|vite\\.config)" }, { dependencyTypes: ["npm-dev", "npm-no-pkg", "npm-unknown"], dependencyTypesNot: ["type-only"] }),
  ],
  options: { tsConfig: { fileName: "tsconfig.json" }, tsPreCompilationDeps: true, doNotFollow: { path: "node_modules" }, exclude: { path: "(^|/)dist/" }, enhancedResolveOptions: { exportsFields: ["exports"], conditionNames: ["import", "types", "node", "default"] } },
};
