import { constants } from "node:zlib"
import compress from "@fastify/compress"
import helmet from "@fastify/helmet"
import rateLimit from "@fastify/rate-limit"
import Fastify, { type FastifyInstance } from "fastify"
import allAccounts from "./accounts/owner-routes.ts"
import accounts from "./accounts/routes.ts"
import { sayTo } from "./accounts/say.ts"
import { recogniseViewers } from "./accounts/sessions.ts"
import again from "./again/routes.ts"
import allergies from "./allergies/routes.ts"
import bakeDays from "./bake-days/routes.ts"
import bakes from "./bakes/routes.ts"
import bill from "./bill/routes.ts"
import calendar from "./calendar/routes.ts"
import changes from "./changes/routes.ts"
import classPicture from "./class-picture/routes.ts"
import invitations from "./classes/invitation-routes.ts"
import people from "./classes/people-routes.ts"
import classes from "./classes/routes.ts"
import type { Config } from "./config.ts"
import crumbs from "./crumbs/routes.ts"
import cues from "./cues/routes.ts"
import curves from "./curves/routes.ts"
import type { Db } from "./db.ts"
import exchange from "./exchange/routes.ts"
import exports from "./export/routes.ts"
import followUp from "./follow-up/routes.ts"
import formulas from "./formulas/routes.ts"
import words from "./glossary/routes.ts"
import { stageTerms, term, termFor, termIn } from "./glossary/term.ts"
import ingredients from "./ingredients/routes.ts"
import judgements from "./judgements/routes.ts"
import kitchens from "./kitchens/routes.ts"
import levain from "./levain/routes.ts"
import likeness from "./likeness/routes.ts"
import live from "./live/routes.ts"
import now from "./now/routes.ts"
import offline from "./offline/routes.ts"
import { version } from "./offline/version.ts"
import operations from "./operations/routes.ts"
import paper from "./paper/routes.ts"
import { maxUploadBytes } from "./photos/processing.ts"
import photos from "./photos/routes.ts"
import { photoStore } from "./photos/storage.ts"
import plans from "./plans/routes.ts"
import { shownPlot } from "./plots/shown.ts"
import { headFor } from "./questions/head.ts"
import questions from "./questions/routes.ts"
import reviews from "./reviews/routes.ts"
import scaling from "./scaling/routes.ts"
import table from "./table/routes.ts"
import water from "./water/routes.ts"
import { guardRoutes } from "./web/access.ts"
import { serveAssets } from "./web/assets.ts"
import { readBodies } from "./web/bodies.ts"
import { bundleUrls, serveBundles } from "./web/bundles.ts"
import { answerErrors } from "./web/errors.ts"
import { type Hub, openHub } from "./web/notices.ts"
import { refuseOtherOrigins } from "./web/same-origin.ts"
import { refuseOthersEntries } from "./web/sender.ts"
import { renderViews } from "./web/views.ts"

const features = [
  operations,
  accounts,
  allAccounts,
  now,
  words,
  kitchens,
  classes,
  allergies,
  people,
  invitations,
  ingredients,
  formulas,
  exchange,
  water,
  levain,
  scaling,
  bakeDays,
  plans,
  calendar,
  paper,
  bill,
  bakes,
  photos,
  crumbs,
  changes,
  cues,
  likeness,
  judgements,
  questions,
  live,
  offline,
  table,
  curves,
  classPicture,
  followUp,
  exports,
  again,
  reviews,
]

type Settings = Pick<Config, "PUBLIC_URL" | "DATA_DIR" | "LOG_LEVEL" | "TRUST_PROXY">

declare module "fastify" {
  interface FastifyInstance {
    settings: Settings
    photoStore: ReturnType<typeof photoStore>
  }
}

/** The whole service, ready to listen. Without a `hub` that listens to the database, open pages ask for what is new. */
export function buildApp({
  db,
  settings,
  hub = openHub(),
}: {
  db: Db
  settings: Settings
  hub?: Hub
}): FastifyInstance {
  const app = Fastify({
    logger: { level: settings.LOG_LEVEL },
    trustProxy: settings.TRUST_PROXY.length > 0 ? settings.TRUST_PROXY : false,
    forceCloseConnections: true, // or a stream that stays open keeps close() waiting
    routerOptions: { ignoreTrailingSlash: true },
  })
  app.decorate("db", db)
  app.decorate("settings", settings)
  app.decorate("photoStore", photoStore(settings.DATA_DIR))
  app.decorate("hub", hub)
  app.addHook("preClose", hub.close)

  renderViews(app, { ...bundleUrls, shownPlot, term, termFor, termIn, stageTerms })
  answerErrors(app)
  app.register(helmet, {
    contentSecurityPolicy: { directives: contentPolicy },
    referrerPolicy: { policy: "same-origin" },
  })
  readBodies(app, { fileSize: maxUploadBytes })
  app.register(rateLimit, { global: false })
  // pages are made anew each time, so the quick half of what Brotli can do; streams of events are left alone
  app.register(compress, {
    encodings: ["br", "gzip"],
    brotliOptions: { params: { [constants.BROTLI_PARAM_QUALITY]: 5 } },
  })

  app.addHook("onRequest", refuseOtherOrigins(settings.PUBLIC_URL))
  recogniseViewers(app, { secure: settings.PUBLIC_URL.startsWith("https:") })
  // before any refusal, so that its page still knows who is asking
  app.addHook("onRequest", async (request, reply) => {
    const { teaches, openQuestions } = await headFor(request)
    const viewer = request.viewer && { ...request.viewer, teaches }
    reply.locals = { viewer, openQuestions, say: sayTo(viewer), path: request.url.split("?")[0] }
    reply.header("oven-version", version)
  })
  refuseOthersEntries(app)
  guardRoutes(app)

  app.register(serveAssets)
  app.register(serveBundles)
  for (const feature of features) app.register(feature)
  return app
}

const contentPolicy = {
  defaultSrc: ["'self'"],
  imgSrc: ["'self'", "data:", "blob:"],
  frameAncestors: ["'none'"],
  objectSrc: ["'none'"],
  scriptSrcAttr: ["'none'"],
  styleSrc: ["'self'"],
  upgradeInsecureRequests: null, // an installation on plain http would lose its stylesheet
}
