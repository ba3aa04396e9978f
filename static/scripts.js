// Everything the pages have by way of a script, sent as one file (server/web/bundles.ts): each part where it is wanted.
import "./app.js"

const { viewer } = document.body.dataset
if (document.getElementById("live")) import("./live.js")
if (viewer) import("./keep.js")
if (document.querySelector(".bench")) import("./bench.js")
if (document.querySelector(".plot")) import("./plots.js")
if (document.querySelector(".wall-ways")) import("./walls.js")
if (document.querySelector("[data-copy]")) import("./copy.js")
if (document.querySelector(".crumb-page")) import("./crumb-area.js")
