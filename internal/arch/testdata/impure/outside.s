// An assembly file, which the check must find by its name.
