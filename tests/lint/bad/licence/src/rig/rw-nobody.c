/* Whose is this? */
