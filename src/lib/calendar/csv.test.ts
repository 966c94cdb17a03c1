import { expect, test } from 'vitest';
import { planToCsv } from './csv.ts';
import { samplePlan, sampleTask } from './sample-plan.ts';

const row = (text: string, because = 'It is due.') =>
	planToCsv(samplePlan([sampleTask('copper/dose/1', '2027-02-01', { text, because })])).split('\r\n');

test('a header and one row per task, amounts in full, CRLF after each', () => {
	const dose = sampleTask('copper/dose/1', '2027-02-01', {
		text: 'Ionic copper 4.3 mL',
		amount: { value: 4.3, unit: 'mL' },
		medicine: 'cu',
		raises: { from: 0, to: 0.08958333333333333, unit: 'mg/L' }
	});
	expect(planToCsv(samplePlan([dose]))).toBe(
		'id,date,time,at,phase,kind,text,value,unit,fraction,medicine,from,to,because\r\n' +
			'copper/dose/1,2027-02-01,08:00,2027-02-01T14:00:00Z,copper,dose,Ionic copper 4.3 mL,' +
			'4.3,mL,,cu,0,0.08958333333333333,It is due.\r\n'
	);
});

// RFC 4180 2.5 to 2.7
test('quotes commas, quotes and line ends', () => {
	expect(row('a "b", c')[1]).toContain(',"a ""b"", c",');
	expect(planToCsv(samplePlan([sampleTask('a/test/1', '2027-02-01', { text: 'x\ny' })]))).toContain(
		',"x\ny",'
	);
});

// OWASP, CSV injection: cells that begin with = + - @ tab or CR
test.each(['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', '\r=1', '\u0000=1', '＝1'])(
	'keeps %j from being a formula',
	(text) => {
		const cell = /,dose,"?('?.)/s.exec(
			planToCsv(samplePlan([sampleTask('a/dose/1', '2027-02-01', { text })]))
		)?.[1];
		expect(["'=", "'+", "'-", "'@", "'\t", "'＝", '\n']).toContain(cell);
	}
);

test('an empty plan is a header', () => {
	expect(planToCsv(samplePlan([])).split('\r\n')).toHaveLength(2);
});
