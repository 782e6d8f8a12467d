export { databaseFile, userDataFolder, type Machine } from './user-data.ts';
