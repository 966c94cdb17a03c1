import { ammoniaQuestions } from './ammonia.ts';
import { dilutionQuestions } from './dilution.ts';
import { dosingQuestions } from './dosing.ts';
import { oxygenQuestions } from './oxygen.ts';
import type { Question } from './question.ts';
import { salinityQuestions } from './salinity.ts';
import { volumeQuestions } from './volume.ts';

/** Every calculator, by subject, in reading order. The page and the command line ask these and no others. */
export const subjects: readonly { title: string; questions: readonly Question[] }[] = [
	{ title: 'Dosing', questions: dosingQuestions },
	{ title: 'Ammonia', questions: ammoniaQuestions },
	{ title: 'Salinity', questions: salinityQuestions },
	{ title: 'Oxygen', questions: oxygenQuestions },
	{ title: 'Dilution and loss', questions: dilutionQuestions },
	{ title: 'Volume', questions: volumeQuestions }
];

export const questions: readonly Question[] = subjects.flatMap((subject) => subject.questions);
