"""`python -m helmwright` does what `helmwright` does."""

from helmwright.cli import main

if __name__ == "__main__":
    main(prog_name="helmwright")
