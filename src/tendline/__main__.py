"""Run the command line as ``python -m tendline``."""

from tendline.cli.main import main

if __name__ == "__main__":
    main()
