export { append, type AppendRequest } from './append.ts';
export { createServices } from './create-services.ts';
export { makeDemo, type DemoMade, type DemoOptions } from './demo/make-demo.ts';
export { addLibrary, LIBRARY, readPictures } from './library.ts';
export { openServices, type Services, type ServicesOptions } from './open-services.ts';
export { openReviews, type Reviews } from './review/index.ts';
export { startJob } from './start-job.ts';
export { databaseFile, userDataFolder, type Machine } from './user-data.ts';
