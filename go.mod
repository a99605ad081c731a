module wirewake

go 1.26
