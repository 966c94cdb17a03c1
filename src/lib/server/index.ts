export {
	askerOf,
	changeOwn,
	enter,
	isWide,
	unlockedSentence,
	wideTrouble,
	type Actor,
	type Asker,
	type Entering
} from './access.ts';
export { accessTable, deedFor, leastFor, mayDo, type Least } from './access-table.ts';
export { readDeeds, writeDeed, type Deed } from './audit.ts';
export {
	addAccount,
	forgetAccount,
	listAccounts,
	loginSchema,
	newAccountSchema,
	setPassword,
	type AccountScope,
	type AccountSummary,
	type NewAccount
} from './caldav-accounts.ts';
export { DavTrouble } from './caldav-fetch.ts';
export { KeyTrouble } from './caldav-key.ts';
export { readNotes, type Note } from './caldav-notes.ts';
export { decide, openProposals, type Proposal } from './caldav-proposals.ts';
export { scheduleCalendars, syncDue } from './caldav-schedule.ts';
export { findServer, makeCollection, type FoundServer, type OfferedCollection } from './caldav-server.ts';
export { syncAccount, type LookReport } from './caldav-sync.ts';
export { calendarDownload } from './calendar-download.ts';
export { calendarFile } from './calendar-file.ts';
export { accountActSchema, currentServers, decisionSchema } from './current-servers.ts';
export { download } from './download.ts';
export { backup, restoreBackup, scheduleBackups, type Held } from './backup.ts';
export { currentFeeds } from './current-feeds.ts';
export { newFeedSchema, scopeWords } from './feed-scope.ts';
export { openFeeds, type Asked, type FeedAnswer, type FeedsOptions, type PlansOf } from './feed-answer.ts';
export { createFeed, listFeeds, renewFeed, revokeFeed, type FeedScope, type FeedSummary } from './feeds.ts';
export { courseSchema, dropCourse, keepCourse, listCourses, type StoredCourse } from './courses.ts';
export { closeCurrent, currentStore, openCurrent } from './current.ts';
export { openDemo } from './demo.ts';
export { documentTrouble, editsSchema, firstIssue, type Document } from './document.ts';
export {
	documentAt,
	editsSince,
	history,
	restoreVersion,
	saveEdits,
	setDeleted,
	type HistoryRow,
	type Save,
	type Saved
} from './edits.ts';
export { addressOf, dropToken, giveToken, safePath, tokenOf } from './door.ts';
export { endpoint } from './endpoint.ts';
export { entriesSchema, entrySchema, idSchema } from './entries.ts';
export { exportAll, importAll, type Everything, type Imported } from './exchange.ts';
export { faultOf, type Fault } from './fault.ts';
export { appendLog, logWriters, planFileOf, readLog, readLogs, type Entry } from './log.ts';
export { passphraseLength } from './passphrase.ts';
export {
	addPerson,
	anyPeople,
	listPeople,
	removePerson,
	roleOf,
	roles,
	setPassphrase,
	setRole,
	type Done,
	type Person,
	type Role
} from './people.ts';
export { keepPhoto, mostPhotoBytes, readPhoto, type Photo } from './photos.ts';
export { openRecord, type RunRecord } from './record.ts';
export {
	isOwnHost,
	isOwnOrigin,
	isPassedOn,
	localeOf,
	nestsBeyond,
	noRun,
	readBody,
	readBytes,
	refusal,
	securityHeaders
} from './request.ts';
export {
	createRun,
	getRun,
	listRuns,
	openRuns,
	type Created,
	type NewRun,
	type RunSummary,
	type StoredRun
} from './runs.ts';
export {
	endSession,
	endSessionsOf,
	listSessions,
	openSession,
	sessionDays,
	type Entered,
	type Session
} from './sessions.ts';
export { sharedAnswer } from './shared-answer.ts';
export { briefSlipsOf, slipsOf } from './slips.ts';
export { takenWaySchema, takeWay } from './ways.ts';
export { plannedRuns, type PlannedRun } from './planned.ts';
export { dayRound, type DayRound } from './today.ts';
export { openForRestore, openStore, storeOptions, type Store } from './store.ts';
