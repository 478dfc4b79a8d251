import { parentPort, workerData } from 'node:worker_threads';
import type { Headline } from './decide/headlines.ts';
import { moneyPart, openSeason, type ReportRequest } from './season.ts';

/* The second thread of `report`: reads the same log and answers the money questions. */

const request = workerData as ReportRequest;
const gear = new Promise<readonly Headline[]>((resolve) => parentPort?.once('message', resolve));
const season = await openSeason(request.folder, request.settingsFile);
parentPort?.postMessage(await moneyPart(season, request, gear));
