import cookie from '@fastify/cookie'
import formbody from '@fastify/formbody'
import helmet from '@fastify/helmet'
import rateLimit from '@fastify/rate-limit'
import fastifyStatic from '@fastify/static'
import Fastify from 'fastify'
import { serializerCompiler, validatorCompiler, type ZodTypeProvider } from 'fastify-type-provider-zod'
import { randomUUID } from 'node:crypto'
import { join } from 'node:path'
import type { Logger } from 'pino'
import { registerAccounts } from './accounts/routes.ts'
import { registerAfterBuild } from './afterbuild/routes.ts'
import { registerBuilds } from './builds/routes.ts'
import { registerCalendars } from './calendars/routes.ts'
import { registerChangeOrders } from './changeorders/routes.ts'
import { registerChecks } from './checks/routes.ts'
import { registerConsents } from './consents/routes.ts'
import { registerCounter } from './counter/routes.ts'
import { registerCustody } from './custody/routes.ts'
import { registerDelivery } from './delivery/routes.ts'
import { registerCustomers } from './customers/routes.ts'
import { registerEquipment } from './equipment/routes.ts'
import { registerFinishes } from './finishes/routes.ts'
import { registerFit } from './fit/routes.ts'
import { registerHealth } from './health/routes.ts'
import { registerHistory } from './history/routes.ts'
import { registerHours } from './hours/routes.ts'
import { registerKits } from './kits/routes.ts'
import { registerImports } from './imports/routes.ts'
import { registerIntake } from './intake/routes.ts'
import { registerLinks } from './links/routes.ts'
import { registerLabels } from './labels/routes.ts'
import { registerMaterials } from './materials/routes.ts'
import { registerOperations } from './operations/routes.ts'
import { registerParts } from './parts/routes.ts'
import { registerPhotos } from './photos/routes.ts'
import { registerQuotes } from './quotes/routes.ts'
import { registerPeople } from './people/routes.ts'
import { registerRemoval } from './removal/routes.ts'
import { registerRestoration } from './restoration/routes.ts'
import { registerScan } from './scan/routes.ts'
import { registerSearch } from './search/routes.ts'
import { registerService } from './service/routes.ts'
import { registerSecrets } from './secrets/routes.ts'
import { registerSheets } from './sheets/routes.ts'
import { registerBars } from './bars/routes.ts'
import { registerLoads } from './loads/routes.ts'
import { registerWeeks } from './weeks/routes.ts'
import { loadPlanFor } from './daylist/planned.ts'
import { registerDayList } from './daylist/routes.ts'
import { registerSchedule } from './schedule/routes.ts'
import { registerSpread } from './spread/routes.ts'
import { registerCapacity } from './capacity/routes.ts'
import { registerSettings } from './settings/routes.ts'
import { guardAccess } from './shared/access.ts'
import { withoutSecrets } from './shared/links/logging.ts'
import { projectFolder } from './shared/database/projectFolder.ts'
import { answerProblems } from './shared/failures.ts'
import { compressAnswers } from './shared/compression.ts'
import { describeApi } from './shared/openapi.ts'
import type { App, Shell } from './shared/shell.ts'
import { registerStockTakes } from './stocktakes/routes.ts'
import { registerTaking } from './taking/routes.ts'
import { registerTeardown } from './teardown/routes.ts'
import { registerStory } from './story/routes.ts'
import { registerTakeovers } from './takeovers/routes.ts'
import { registerWhatIf } from './whatif/routes.ts'
import { registerVehicles } from './vehicles/routes.ts'

const LARGEST_BODY = 256 * 1024

/** The whole service, ready for requests, without listening. */
export async function buildApp(shell: Shell, logger: Logger): Promise<App> {
  const { config } = shell
  const fastify = Fastify({
    loggerInstance: withoutSecrets(logger),
    genReqId: () => randomUUID(),
    trustProxy: config.trustProxy,
    bodyLimit: LARGEST_BODY,
    forceCloseConnections: 'idle',
    ...(config.tls ? { https: config.tls } : {}),
  })
  const app = fastify.withTypeProvider<ZodTypeProvider>() as unknown as App
  app.setValidatorCompiler(validatorCompiler)
  app.setSerializerCompiler(serializerCompiler)
  answerProblems(app)
  await compressAnswers(app)
  await app.register(cookie)
  await app.register(formbody, { bodyLimit: LARGEST_BODY })
  await app.register(helmet, securityHeaders(config.isSecure))
  await app.register(rateLimit, { global: false })
  guardAccess(app, shell)
  await describeApi(app)
  await app.register(fastifyStatic, {
    root: join(projectFolder(), 'web', 'assets'), prefix: '/assets/', maxAge: '1h',
    decorateReply: false,
  })

  registerHealth(app, shell)
  registerPeople(app, shell)
  registerSettings(app, shell)
  registerCapacity(app, shell)
  registerCustomers(app, shell)
  registerVehicles(app, shell)
  registerBuilds(app, shell)
  registerChecks(app, shell)
  registerCounter(app, shell)
  registerKits(app, shell)
  registerFit(app, shell)
  registerEquipment(app, shell)
  registerParts(app, shell)
  registerOperations(app, shell)
  registerFinishes(app, shell)
  registerMaterials(app, shell)
  registerCustody(app, shell)
  registerRemoval(app, shell)
  registerLabels(app, shell)
  registerScan(app, shell)
  registerStockTakes(app, shell)
  registerRestoration(app, shell)
  registerBars(app, shell)
  registerLoads(app, shell)
  registerWeeks(app, shell)
  registerDayList(app, shell)
  registerSchedule(app, shell)
  registerCalendars(app, shell)
  registerTaking(app, shell)
  registerSpread(app, shell)
  registerQuotes(app, shell)
  registerConsents(app, shell)
  registerChangeOrders(app, shell)
  registerAccounts(app, shell)
  await registerTeardown(app, shell)
  registerAfterBuild(app, shell)
  registerWhatIf(app, shell)
  registerHistory(app, shell)
  registerHours(app, shell, loadPlanFor)
  registerService(app, shell)
  registerDelivery(app, shell)
  registerStory(app, shell)
  registerSearch(app, shell)
  await registerPhotos(app, shell)
  registerImports(app, shell)
  registerTakeovers(app, shell)
  await registerIntake(app, shell)
  registerSecrets(app, shell)
  registerSheets(app, shell)
  registerLinks(app, shell)
  await app.ready()
  return app
}

function securityHeaders(isSecure: boolean): Parameters<typeof helmet>[1] & object {
  return {
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        defaultSrc: ["'self'"], scriptSrc: ["'self'"], styleSrc: ["'self'"], imgSrc: ["'self'", 'data:'], fontSrc: ["'self'"],
        formAction: ["'self'"], frameAncestors: ["'none'"], baseUri: ["'none'"], objectSrc: ["'none'"],
      },
    },
    strictTransportSecurity: isSecure ? { maxAge: 15_552_000 } : false,
    referrerPolicy: { policy: 'same-origin' },
    // On a plain network the pages are no secure context and browsers would only warn about it.
    crossOriginOpenerPolicy: isSecure,
    originAgentCluster: isSecure,
  }
}
