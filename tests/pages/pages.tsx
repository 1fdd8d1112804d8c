import { BuildsPage } from '../../web/builds/builds.tsx'
import { EstimatePage } from '../../web/builds/estimate.tsx'
import { CounterJobPage } from '../../web/counter/counterJob.tsx'
import { FitPage } from '../../web/fit/fit.tsx'
import { LedgerPage } from '../../web/builds/ledger.tsx'
import { DryRunPage } from '../../web/imports/dryRun.tsx'
import { FinishSchedulePage } from '../../web/finishes/schedule.tsx'
import { BillOfMaterialsPage } from '../../web/materials/billOfMaterials.tsx'
import { NowPage } from '../../web/now/now.tsx'
import { PartPage } from '../../web/parts/part.tsx'
import { FirstOwnerPage } from '../../web/people/firstOwner.tsx'
import { SignInPage } from '../../web/people/signIn.tsx'
import { RemovalPage } from '../../web/restoration/removal.tsx'
import { RestorationPage } from '../../web/restoration/restoration.tsx'
import { ReturnToStockPage } from '../../web/restoration/returnToStock.tsx'
import { LinksPage } from '../../web/links/links.tsx'
import { LinkGonePage } from '../../web/shared/linkGone.tsx'
import { SharedSheetPage } from '../../web/restoration/sharedSheet.tsx'
import { ClosingPage } from '../../web/sheets/closing.tsx'
import { MarkListPage, SheetListPage } from '../../web/sheets/list.tsx'
import { SheetPage } from '../../web/sheets/sheet.tsx'
import { SearchPage } from '../../web/search/search.tsx'
import { AsBuiltPage } from '../../web/service/asBuilt.tsx'
import { VisitPage } from '../../web/service/visit.tsx'
import { ConflictPage } from '../../web/shared/conflict.tsx'
import { ProblemPage } from '../../web/shared/problem.tsx'
import { asBuilt, emptyAsBuilt } from './samples/asBuilt.ts'
import { billOfMaterials } from './samples/billOfMaterials.ts'
import { builds, noBuilds } from './samples/builds.ts'
import { dryRun, dryRunReady } from './samples/dryRun.ts'
import { counterJob, fit, noFit, noFittings } from './samples/counter.ts'
import { estimate, estimateWithoutMoney } from './samples/estimate.ts'
import { finishSchedule } from './samples/finishSchedule.ts'
import { SampleForm, formProblems } from './samples/form.tsx'
import { emptyLedger, ledger } from './samples/ledger.ts'
import { idleNow, now } from './samples/now.ts'
import { part } from './samples/part.ts'
import { removal, ringRemoval } from './samples/removal.ts'
import { restoration, restorationChoice } from './samples/restoration.ts'
import { returnToStock } from './samples/returnToStock.ts'
import { frozenSheet, links, sheetClosing, sheetList, sheetMarks } from './samples/sheet.ts'
import { nothingFound, search } from './samples/search.ts'
import { conflict, firstOwner, problem, signIn } from './samples/small.ts'
import { firstVisit, visit } from './samples/visit.ts'
import { manager, technician } from './samples/viewer.ts'

/** Every page with an invented sample, by name. */
export function listPages(): readonly (readonly [name: string, page: JSX.Element])[] {
  return [
    ['ledger', <LedgerPage viewer={manager} data={ledger} />],
    ['ledger-empty', <LedgerPage viewer={manager} data={emptyLedger} />],
    ['part', <PartPage viewer={manager} data={part} />],
    ['finish-schedule', <FinishSchedulePage viewer={manager} data={finishSchedule} />],
    ['now', <NowPage viewer={technician} data={now} />],
    ['now-idle', <NowPage viewer={technician} data={idleNow} />],
    ['return-to-stock', <ReturnToStockPage viewer={manager} data={returnToStock} />],
    ['return-to-stock-technician', <ReturnToStockPage viewer={technician} data={{ ...returnToStock, showsMoney: false }} />],
    ['bill-of-materials', <BillOfMaterialsPage viewer={manager} data={billOfMaterials} />],
    ['estimate', <EstimatePage viewer={manager} data={estimate} />],
    ['estimate-technician', <EstimatePage viewer={technician} data={estimateWithoutMoney} />],
    ['builds', <BuildsPage viewer={manager} data={builds} />],
    ['builds-none', <BuildsPage viewer={manager} data={noBuilds} />],
    ['counter-job', <CounterJobPage viewer={manager} data={counterJob} />],
    ['counter-job-first', <CounterJobPage viewer={manager} data={noFittings} />],
    ['fit', <FitPage viewer={manager} data={fit} />],
    ['fit-first', <FitPage viewer={manager} data={noFit} />],
    ['removal', <RemovalPage viewer={manager} data={removal} />],
    ['removal-ring', <RemovalPage viewer={manager} data={ringRemoval} />],
    ['restoration', <RestorationPage viewer={manager} data={restoration} />],
    ['restoration-choice', <RestorationPage viewer={manager} data={restorationChoice} />],
    ['as-built', <AsBuiltPage viewer={manager} data={asBuilt} />],
    ['as-built-empty', <AsBuiltPage viewer={technician} data={emptyAsBuilt} />],
    ['visit', <VisitPage viewer={manager} data={visit} />],
    ['visit-first', <VisitPage viewer={technician} data={firstVisit} />],
    ['frozen-sheet', <SheetPage viewer={technician} data={frozenSheet} />],
    ['frozen-sheet-closing', <ClosingPage viewer={manager} data={sheetClosing} />],
    ['frozen-sheets', <SheetListPage viewer={manager} data={sheetList} />],
    ['frozen-sheets-none', <SheetListPage viewer={manager} data={{ ...sheetList, sheets: [] }} />],
    ['frozen-sheet-marks', <MarkListPage viewer={manager} data={sheetMarks} />],
    ['frozen-sheet-shared', <SharedSheetPage data={{ ...returnToStock, showsMoney: false }} reader={manager} shopName="Quayside" base="/l/secret" />],
    ['links', <LinksPage viewer={manager} data={links} />],
    ['link-gone', <LinkGonePage />],
    ['search', <SearchPage viewer={manager} data={search} />],
    ['search-nothing', <SearchPage viewer={technician} data={nothingFound} />],
    ['form', <SampleForm viewer={manager} problems={[]} />],
    ['form-problems', <SampleForm viewer={manager} problems={formProblems} />],
    ['conflict', <ConflictPage viewer={manager} data={conflict} />],
    ['problem', <ProblemPage viewer={manager} data={problem} />],
    ['dry-run', <DryRunPage viewer={manager} data={dryRun} />],
    ['dry-run-ready', <DryRunPage viewer={manager} data={dryRunReady} />],
    ['sign-in', <SignInPage data={signIn} />],
    ['first-owner', <FirstOwnerPage data={firstOwner} />],
  ]
}
