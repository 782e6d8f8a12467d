/** The key that this window was given for the passphrase; gone with the window, and good for as long as the main process says. */
export const keyring = $state<{ key: string | undefined }>({ key: undefined });
