export { actives, groups, targets, type Active, type Group, type Target } from './vocabulary.ts';
export { labels, type Label } from './labels.ts';
export { unsourced } from './sourced.ts';
export { clearAt, medicines } from './medicines.ts';
export { methods, type Method, type MethodRow } from './methods.ts';
export { sharing, type SharingRow } from './sharing.ts';
export { groupRows, tolerates, type Tolerance } from './species.ts';
export { parasites } from './parasites.ts';
export { gapBounds } from './gap.ts';
export { answersTo, suspects, type Answer, type Suspect } from './suspects.ts';
export { coursePhases, courses } from './courses.ts';
export { callVet, carcassNitrogenShare, disinfection, stay } from './practice.ts';
export { cautions, type Hazard } from './cautions.ts';
export { emergencies, type EmergencyCard } from './emergencies.ts';
export { kits, type KitRow } from './kits.ts';
export type {
	Band,
	BathLimits,
	CourseRow,
	GapBounds,
	GroupRow,
	Mark,
	MedicineRow,
	ParasiteRow,
	Sharing,
	Sourced,
	StageRow,
	ToxicityRow,
	UseRow
} from './row.ts';
